import {
  driftTrial,
  readCurve,
  type BondSlipLaw,
  type KnownDrift,
  type ReductionOptions,
} from "../curves";
import { capitalised } from "../comparison";
import type { Diagnostic } from "../dataset";
import { curve } from "../figures";
import { reducedCurveTable } from "../tables";
import { CurveFits } from "./curve-fits";
import { drawnWords, measured, MOST_DRAWN, SLIP, STRESS, type CurveOfTest } from "./curve-lines";
import { TriedDrift } from "./tried-drift";
import { count, fileName, knownName } from "./results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "./results/result";
import { readyCondition, type Condition } from "./tests/condition";
import type { Column, TestRow } from "./tests/study-row";

/** The records of a study, and how they were chosen. */
export interface ChosenCurves {
  readonly curves: readonly CurveOfTest[];
  /** Findings in reading the records, without the remarks on each. */
  readonly findings: readonly Diagnostic[];
  readonly options: ReductionOptions;
  readonly conditions: readonly string[];
  /** The conditions in as few words as a file name has room for. */
  readonly names: readonly string[];
  readonly columnNames: readonly string[];
}

/**
 * Load-displacement records of the tests, reduced to peak, slip, stiffness, loss of adhesion,
 * residual load and energy; the raw records stay as they are.
 * @example (await study.curves({ freeLength_mm: 30 })).fit("cmr").table("summary")
 */
export class Curves extends DrawnResult<"load-displacement" | "bond-slip", "curves"> {
  constructor(
    protected readonly setting: Setting,
    private readonly chosen: ChosenCurves,
  ) {
    super();
  }

  get name(): string {
    return fileName("curves", ...this.chosen.names);
  }

  get length(): number {
    return this.chosen.curves.length;
  }

  get answer(): string {
    const { curves, findings, conditions } = this.chosen;
    const where = conditions.length === 0 ? "" : ` (${conditions.join("; ")})`;
    if (curves.length === 0)
      return `No load-displacement record${where}: the column curve of tests.csv names the file of each.`;
    const flagged = curves.filter(({ reduction }) => reduction.flags.length > 0).length;
    const further =
      findings.length === 0 ? "" : `; ${count(findings.length, "finding")} in reading the files`;
    return `${count(curves.length, "record")} reduced${where}, ${flagged} of them with a remark${further}.`;
  }

  /** The records of the tests that meet a condition. */
  where(condition: Condition<TestRow>): Curves {
    const ready = readyCondition(condition, this.chosen.columnNames);
    return new Curves(this.setting, {
      ...this.chosen,
      conditions: [...this.chosen.conditions, ready.words],
      names: [...this.chosen.names, namedBy(condition) ?? ready.words],
      curves: this.chosen.curves.filter(({ row }) =>
        ready.holds(
          (column) => row[column as Column] ?? null,
          () => row,
        ),
      ),
    });
  }

  /**
   * A bond stress-slip law fitted to each record; a record that lacks the branch that the law needs
   * is listed with the reason.
   * @throws UnknownNameError for a law that there is not
   */
  fit(law: BondSlipLaw): CurveFits {
    knownName("law", law, ["bpe", "modified_bpe", "cmr"]);
    return new CurveFits(this.setting, this.name, law, this.chosen.curves);
  }

  /**
   * How well a rule for slow drift recovers the peak load: a known drift of the load cell is added
   * to the first record, left in it and taken off (`driftTrial`).
   * @param drift default 3 % of the peak load over the record, after 120 readings at rest
   * @example
   * const curves = await study.curves();
   * (await curves.driftTrial({ share: 0.03 })).table()
   */
  async driftTrial(drift: KnownDrift = {}): Promise<TriedDrift> {
    const [first] = this.chosen.curves;
    const record = first === undefined ? null : (await readCurve(first.path)).curve;
    const trials =
      record === null ? [] : driftTrial(record, drift, withoutDrift(this.chosen.options));
    return new TriedDrift(this.setting, this.name, first?.test_id ?? null, trials);
  }

  protected sentences(): readonly string[] {
    const byRemark = new Map<string, string[]>();
    for (const { test_id, reduction } of this.chosen.curves)
      for (const flag of reduction.flags)
        byRemark.set(flag, [...(byRemark.get(flag) ?? []), test_id]);
    return [
      this.answer,
      ...[...byRemark].map(
        ([remark, ids]) =>
          `${capitalised(remark)}, in ${count(ids.length, "record")}: ${ids.join(", ")}.`,
      ),
      ...this.chosen.findings.map(({ message }) => `${message}.`),
    ];
  }

  protected tableViews(): Readonly<Record<"curves", TableView>> {
    return {
      curves: {
        title: "Load-displacement records reduced to numbers",
        caption: `${count(this.length, "record")}.`,
        notes: [
          "Loss of adhesion: rule of adhesive-anchor evaluation, to be checked against a licensed copy.",
        ],
        make: (text) => reducedCurveTable(this.chosen.curves, text),
      },
    };
  }

  protected figureViews(): Readonly<Record<"load-displacement" | "bond-slip", FigureView>> {
    const drawn = this.chosen.curves.slice(0, MOST_DRAWN);
    const caption = drawnWords(drawn.length, this.length);
    return {
      "load-displacement": {
        title: "Load against slip",
        caption,
        make: (text) =>
          curve({
            ...text,
            xTitle: "Slip (mm)",
            yTitle: "Load (kN)",
            curves: drawn.map(({ test_id, reduction }) => ({
              label: test_id,
              x: Array.from(reduction.slip_mm),
              y: Array.from(reduction.load_kN),
            })),
          }),
      },
      "bond-slip": {
        title: "Bond stress against slip",
        caption: `${caption} Average stress over the bonded length.`,
        make: (text) =>
          curve({ ...text, xTitle: SLIP, yTitle: STRESS, curves: drawn.map(measured) }),
      },
    };
  }
}

/** A trial adds a drift of its own and names the rules. */
function withoutDrift({ drift: _, ...options }: ReductionOptions): Omit<ReductionOptions, "drift"> {
  return options;
}

/** The values that a condition asks for, such as "steel P"; null for one that is not so simple. */
function namedBy(condition: Condition<TestRow>): string | null {
  if (typeof condition !== "object") return null;
  const values: readonly unknown[] = Object.values(condition);
  return values.every((one) => typeof one === "string" || typeof one === "number")
    ? values.join(" ")
    : null;
}
