import { parseFormula, symbolsOf } from "../formula";
import {
  blanksOf,
  limitValues,
  reasonsAt,
  clauseOf,
  setupAllows,
  setupOfAction,
  statementOf,
  substitutionFinder,
  testedByOf,
  whyNotTested,
  type CodePrediction,
  type Limit,
} from "../provisions";

/**
 * Whether a pair of test and provision enters the ratios; all but `judged` are counted by reason.
 */
export type Status = "judged" | NotJudgedStatus;
export type NotJudgedStatus =
  | "outside stated range"
  | "set-up does not test this"
  | "input missing"
  | "input substituted"
  | "capacity of another mode"
  | "excluded";

/**
 * `judged`: pairs that the provision is meant for. `all`: every pair that has a capacity and a
 * load.
 */
export type Scope = "judged" | "all";

/**
 * The status of one pair, with the reason in words that are the same for every row, and what this
 * row has.
 */
export interface PairStatus {
  readonly status: Status;
  /**
   * Clause and limit, the set-ups that test the provision, or the input; empty for a judged pair.
   */
  readonly reason: string;
  /**
   * The values of this row that the limit compares, or its set-up; empty where there is nothing to
   * add.
   */
  readonly value: string;
  /**
   * How near a pair without a capacity is to having one: the lowest is told of several provisions
   * of a mode.
   */
  readonly rank: number;
}

const JUDGED: PairStatus = { status: "judged", reason: "", value: "", rank: 0 };

/**
 * The one rule of scope: what keeps a test from judging a provision.
 *
 * In this order: the set-up or installation does not test the provision (`testedBy`); a limit is
 * not met, one that withholds the capacity or one that is only reported; an input is missing, so
 * that there is no capacity; an input was substituted.
 */
export class ScopeRule {
  readonly #prediction: CodePrediction;
  readonly #confinedCounts: boolean;
  readonly #headed: boolean;
  /** The set-ups and installations that occur, and which of them each row has. */
  readonly #kinds: { readonly setup: string | null; readonly installation: string | null }[] = [];
  readonly #kindOf: Int32Array;
  /** By column and kind, once asked for. */
  readonly #tested: (PairStatus | null | undefined)[][];
  readonly #substituted: ReadonlyArray<(i: number) => string | null>;

  /**
   * @param confinedCounts whether a factor on confined bond was stated: such tests are then judged
   *   for bond
   */
  constructor(prediction: CodePrediction, confinedCounts: boolean) {
    const {
      code,
      settings,
      specimens: { tests },
    } = prediction;
    [this.#prediction, this.#confinedCounts] = [prediction, confinedCounts];
    this.#headed =
      (settings.options?.["headed_cast_in"] ?? code.options["headed_cast_in"]?.value ?? 0) === 1;
    const [setups, installations] = [tests.texts("setup"), tests.texts("installation")];
    const known = new Map<string, number>();
    this.#kindOf = Int32Array.from({ length: tests.length }, (_, row) => {
      const kind = `${setups[row] ?? ""} ${installations[row] ?? ""}`;
      const found =
        known.get(kind) ??
        this.#kinds.push({ setup: setups[row] ?? null, installation: installations[row] ?? null }) -
          1;
      known.set(kind, found);
      return found;
    });
    this.#tested = prediction.columns.map(() => []);
    this.#substituted = prediction.columns.map((column) => substitutionFinder(prediction, column));
  }

  /**
   * The status of the pair of a row and a provision. @param failedInMode whether the test failed in
   * a mode of the provision
   */
  at(row: number, column: number, failedInMode: boolean): PairStatus {
    const predicted = this.#prediction.columns[column]!;
    const untested = this.#untested(row, column);
    if (untested !== null) return untested;
    const withheld = Number.isNaN(predicted.capacity[row] ?? NaN);
    if (withheld || predicted.flags[row] !== 0) {
      const byLimit = this.#byLimit(row, column, failedInMode, withheld);
      if (byLimit) return byLimit;
    }
    if (withheld) {
      const missing = reasonsAt(this.#prediction, predicted, row)
        .filter(({ kind }) => kind === "missing")
        .map(({ says }) => says);
      return {
        status: "input missing",
        reason: missing.join("; ") || "an input is missing",
        value: "",
        rank: 0,
      };
    }
    const substituted = this.#substituted[column]!(row);
    return substituted === null
      ? JUDGED
      : { status: "input substituted", reason: substituted, value: "", rank: 0 };
  }

  /**
   * A limit that is not met: one that withholds before one that is only reported. Filling in a
   * blank would not bring such a test into range.
   */
  #byLimit(
    row: number,
    column: number,
    failedInMode: boolean,
    withheld: boolean,
  ): PairStatus | null {
    const { provision, flags } = this.#prediction.columns[column]!;
    const failing = provision.limits.filter((_, k) => ((flags[row] ?? 0) & (1 << k)) !== 0);
    const withholding = failing.filter(({ effect }) => effect === "not_applicable");
    const unstated = withholding.find((limit) => this.#asksForOption(limit));
    if (unstated)
      return {
        status: "input missing",
        reason: `${unstated.clause}: ${unstated.says}`,
        value: "",
        rank: 3,
      };
    const limit = withholding[0] ?? failing[0];
    if (!limit) return null;
    // A test that failed in the mode lacks what the limit asks for: an edge that broke out was
    // there, though its distance is blank.
    const blank =
      failedInMode &&
      withholding.length > 0 &&
      withholding.every((one) => blanksOf(this.#prediction, one, row).length > 0);
    return {
      status: blank ? "input missing" : "outside stated range",
      reason: `${limit.clause}: ${limit.says}`,
      value: limitValues(this.#prediction, provision, limit, row),
      rank: blank || !withheld ? 0 : 1,
    };
  }

  /**
   * Whether a limit reads nothing but options left at their default that are quantities: a product
   * value or a head nobody stated.
   */
  #asksForOption({ holds }: Limit): boolean {
    const { code, settings } = this.#prediction;
    return [...symbolsOf(parseFormula(holds))].every((name) => {
      const option = code.options[name];
      return (
        option !== undefined &&
        statementOf(option.meaning) === null &&
        (settings.options?.[name] ?? option.value) === option.value
      );
    });
  }

  #untested(row: number, column: number): PairStatus | null {
    const kind = this.#kindOf[row] ?? 0;
    const known = this.#tested[column]!;
    const found = known[kind];
    if (found !== undefined) return found;
    const { code, columns } = this.#prediction;
    const { provision } = columns[column]!;
    const { setup: stated, installation } = this.#kinds[kind]!;
    const setup = setupOfAction(stated, provision.action);
    const free = provision.modes.some((mode) => setupAllows(setup, mode));
    const why = free
      ? whyNotTested(
          testedByOf(code, provision),
          provision,
          setup,
          installation,
          this.#headed,
          this.#confinedCounts,
        )
      : `a test by ${(setup ?? "an unstated set-up").replaceAll("_", " ")} cannot fail in this mode`;
    return (known[kind] =
      why === null
        ? null
        : {
            status: "set-up does not test this",
            reason: `${clauseOf(provision.id)}: ${why}`,
            value: "",
            rank: 2,
          });
  }
}
