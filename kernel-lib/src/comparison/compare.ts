import type { TestTable } from "../dataset";
import { governing, predict, reasonsAt, setupAllows, type CodeDefinition, type CodePrediction, type FailureMode, type PredictionSettings } from "../provisions";
import { tellsOf, type BoundRule } from "./bounds";

/** `mode_matched`: the capacity of the mode that was observed. `governing`: the least capacity of all free modes. */
export type Way = "mode_matched" | "governing";

export interface ComparisonSettings extends PredictionSettings {
  readonly way?: Way;
  readonly bounds?: BoundRule;
  /**
   * Dimensionless; multiplies the load of `confined_tension` tests where it is evidence of bond, and nowhere else,
   * because a confining set-up raises the bond stress above that of an unconfined bar. 0.75 is the set-up factor
   * alpha_setup of the usual product tests (from memory, to be checked against a licensed copy). Off (1) by default.
   */
  readonly confinedBondFactor?: number;
}

/** One test-to-predicted ratio, or a lower bound of it. */
export interface Evidence {
  readonly row: number;
  /** Column of the prediction. */
  readonly column: number;
  /** The mode the capacity belongs to, by which evidence is grouped. */
  readonly mode: FailureMode;
  /** kN; the peak load, times `confinedBondFactor` where that applies. */
  readonly load: number;
  /** kN */
  readonly capacity: number;
  /** Dimensionless: peak load over capacity. */
  readonly ratio: number;
  /** True when the test did not fail in this mode, so that its ratio is a lower bound. */
  readonly bound: boolean;
}

/** Tests joined with one code's predictions. */
export interface Comparison {
  readonly tests: TestTable;
  readonly code: CodeDefinition;
  readonly prediction: CodePrediction;
  readonly way: Way;
  readonly bounds: BoundRule;
  readonly evidence: readonly Evidence[];
  /** Tests that give no ratio, each with the reason. */
  readonly unused: readonly { readonly row: number; readonly reason: string }[];
}

/**
 * Joins tests with a code's predictions: ratio = peak load / capacity for every test and mode it tells something of.
 *
 * Rows with an exclusion reason are listed as unused, and so, for the governing ratio, are rows whose observed mode the
 * code has no applicable provision for. A test arrangement that cannot show a mode gives no ratio in it.
 * @example compare(tests, code("aci318-19"), { level: "nominal", way: "mode_matched" })
 * @throws RangeError when `confinedBondFactor` is not a positive finite number.
 */
export function compare(tests: TestTable, code: CodeDefinition, settings: ComparisonSettings = {}): Comparison {
  const prediction = predict(code, tests, settings);
  const [way, bounds] = [settings.way ?? "mode_matched", settings.bounds ?? "stated"];
  const factor = settings.confinedBondFactor ?? 1;
  if (!(factor > 0 && factor < Infinity)) throw new RangeError(`confinedBondFactor ${factor} is not usable, expected a positive finite number such as 0.75`);
  const evidence: Evidence[] = [];
  const unused: { row: number; reason: string }[] = [];
  const [observed, excluded, loads] = [tests.texts("failure_mode"), tests.texts("excluded"), tests.numbers("peak_load_kN")];
  const least = way === "governing" ? governing(prediction) : null;
  const matched = new MatchedModes(prediction, tests, bounds);
  for (let row = 0; row < tests.length; row++) {
    const reason = excluded[row];
    if (reason) {
      unused.push({ row, reason: `excluded: ${reason}` });
      continue;
    }
    const load = loads[row] ?? NaN;
    const found = least ? governingEvidence(prediction, least, row, load, observed[row] ?? null) : matched.of(row, load, observed[row] ?? null);
    const confined = factor !== 1 && tests.text(row, "setup") === "confined_tension";
    evidence.push(...(confined ? found.map((one) => scaledBond(prediction, one, factor)) : found));
    if (found.length === 0) unused.push({ row, reason: matched.whyNone(row, observed[row] ?? null) });
  }
  return { tests, code, prediction, way, bounds, evidence, unused };
}

function scaledBond(prediction: CodePrediction, one: Evidence, factor: number): Evidence {
  if (!prediction.columns[one.column]?.provision.modes.includes("bond")) return one;
  const load = one.load * factor;
  return { ...one, load, ratio: load / one.capacity };
}

function governingEvidence(prediction: CodePrediction, least: ReturnType<typeof governing>, row: number, load: number, observed: string | null): Evidence[] {
  const column = least.column[row] ?? -1;
  const provision = prediction.columns[column]?.provision;
  if (!provision || observed === "unknown" || observed === null) return [];
  const bound = observed === "rupture_at_grip" || observed === "stopped";
  // Where the code has no capacity for the mode that was observed, the least of the others is no prediction of the test.
  const foresees = prediction.columns.some((other) => (other.provision.modes as readonly string[]).includes(observed) && other.provision.action === provision.action && !Number.isNaN(other.capacity[row]));
  if (!bound && !foresees) return [];
  const capacity = (least.capacity[row] ?? NaN) / 1000;
  return [{ row, column, mode: provision.modes[0], load, capacity, ratio: load / capacity, bound }];
}

class MatchedModes {
  readonly #prediction: CodePrediction;
  readonly #tests: TestTable;
  readonly #bounds: BoundRule;

  constructor(prediction: CodePrediction, tests: TestTable, bounds: BoundRule) {
    [this.#prediction, this.#tests, this.#bounds] = [prediction, tests, bounds];
  }

  /** Per studied mode the least capacity of its provisions (edge breakout has one for each edge). */
  of(row: number, load: number, observed: string | null): Evidence[] {
    const best = new Map<FailureMode, Evidence>();
    const [action, setup] = [this.#tests.text(row, "action"), this.#tests.text(row, "setup")];
    this.#prediction.columns.forEach(({ provision, capacity }, column) => {
      if (provision.action !== action || !provision.modes.some((mode) => setupAllows(setup, mode))) return;
      const tells = tellsOf(observed, provision.modes, this.#bounds);
      const kN = (capacity[row] ?? NaN) / 1000;
      if (tells === "nothing" || Number.isNaN(kN)) return;
      const mode = provision.modes[0];
      const known = best.get(mode);
      if (known && known.capacity <= kN) return;
      best.set(mode, { row, column, mode, load, capacity: kN, ratio: load / kN, bound: tells === "lower bound" });
    });
    return [...best.values()];
  }

  whyNone(row: number, observed: string | null): string {
    if (observed === null || observed === "unknown") return "the failure mode is unknown";
    const action = this.#tests.text(row, "action");
    const of = this.#prediction.columns.filter(({ provision }) => provision.action === action && tellsOf(observed, provision.modes, this.#bounds) !== "nothing");
    if (of.length === 0) return `${this.#prediction.code.id} has no provision at this level for the mode ${observed}`;
    const setup = this.#tests.text(row, "setup");
    if (!of.some(({ provision }) => provision.modes.some((mode) => setupAllows(setup, mode)))) return `the arrangement ${setup ?? "(blank)"} cannot show this mode`;
    const reasons = of.flatMap((column) => reasonsAt(this.#prediction, column, row).filter(({ kind }) => kind !== "outside").map(({ says }) => says));
    return reasons[0] ?? "no provision applies";
  }
}
