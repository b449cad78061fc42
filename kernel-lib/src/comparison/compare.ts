import type { TestTable } from "../dataset";
import {
  governing,
  predict,
  type CodeDefinition,
  type CodePrediction,
  type PredictionSettings,
} from "../provisions";
import { tellsOf, type BoundRule } from "./bounds";
import { interactionPair } from "./interaction-pair";
import { valueWords } from "./labels";
import { pairsOfTest, type Components, type Pair, type RatioMode } from "./pairs-of-test";
import { ScopeRule, type NotJudgedStatus, type Scope } from "./scope";
import { setupFactor, type ConfinedBondFactor } from "./setup-factor";

/**
 * `mode_matched`: the capacity of the mode that was observed. `governing`: the least capacity of
 * all free modes.
 */
export type Way = "mode_matched" | "governing";

export interface ComparisonSettings extends PredictionSettings {
  readonly way?: Way;
  readonly bounds?: BoundRule;
  /**
   * Which pairs enter the ratios; `judged` by default. `all` pools every pair that has a capacity
   * and a load.
   */
  readonly scope?: Scope;
  /**
   * Dimensionless; multiplies the load of `confined_tension` tests where it is evidence of bond,
   * and nowhere else, because a confining set-up raises the bond stress above that of an unconfined
   * bar. A number, or a published factor by name, which may depend on the crack state: see
   * `SETUP_FACTORS` and their sources. Left out, confined tests do not judge the bond of an anchor;
   * stated, they do, with the factor, and 1 takes them as they are.
   */
  readonly confinedBondFactor?: ConfinedBondFactor;
}

/** One test-to-predicted ratio, or a lower bound of it. */
export interface Evidence {
  readonly row: number;
  /** Column of the prediction; -1 for an interaction. */
  readonly column: number;
  /**
   * The mode the capacity belongs to, by which evidence is grouped; `interaction` for tension and
   * shear at once.
   */
  readonly mode: RatioMode;
  /** Of an interaction: the columns with the governing capacities in tension and in shear. */
  readonly components?: Components;
  /** kN; the peak load, times `confinedBondFactor` where that applies. */
  readonly load: number;
  /** kN */
  readonly capacity: number;
  /** Dimensionless: peak load over capacity. */
  readonly ratio: number;
  /** True when the test did not fail in this mode, so that its ratio is a lower bound. */
  readonly bound: boolean;
}

/** A pair of test and provision that is not judged. */
export interface NotJudged {
  readonly row: number;
  /** Column of the prediction; -1 where the code has no provision to pair the test with. */
  readonly column: number;
  /** Mode of the provision; null where there is none. */
  readonly mode: RatioMode | null;
  /** True when the test would be a lower bound of the mode only. */
  readonly bound: boolean;
  readonly status: NotJudgedStatus;
  /** The limit, the set-ups that test the provision, or the input: the same words for every row. */
  readonly reason: string;
  /** What this row has, where a limit compares values. */
  readonly value: string;
}

/** Tests joined with one code's predictions. */
export interface Comparison {
  readonly tests: TestTable;
  readonly code: CodeDefinition;
  readonly prediction: CodePrediction;
  readonly way: Way;
  readonly bounds: BoundRule;
  readonly scope: Scope;
  /** As stated in the settings; null where none was. */
  readonly confinedBondFactor: ConfinedBondFactor | null;
  readonly evidence: readonly Evidence[];
  /** Every pair that is not judged, whether or not the scope pools it with the others. */
  readonly notJudged: readonly NotJudged[];
  /** Tests that give no ratio, each with the reason that concerns the mode it failed in. */
  readonly unused: readonly {
    readonly row: number;
    readonly status: NotJudgedStatus;
    readonly reason: string;
  }[];
}

/**
 * Joins tests with a code's predictions: ratio = peak load / capacity for every test and mode it
 * tells something of.
 *
 * Each pair of test and provision has one status (`Status`). Only judged pairs enter the ratios by
 * default; the others are listed with their reasons in `notJudged`, and `scope: "all"` pools those
 * that have a capacity. A test arrangement that cannot show a mode gives no ratio in it, whatever
 * the scope. For the governing ratio the pair is that of the least capacity among the modes left
 * free, and a test whose observed mode the code has no applicable provision for is not judged. A
 * test with tension and shear is compared with the code's interaction alone, in either way: its
 * ratio is the resultant over that at which the interaction is met along the load path, and its
 * mode is `interaction`.
 * @example compare(tests, code("aci318-19"), { level: "nominal", way: "mode_matched" })
 * @throws RangeError when `confinedBondFactor` is neither a positive finite number nor a name of
 *   `SETUP_FACTORS`.
 */
export function compare(
  tests: TestTable,
  code: CodeDefinition,
  settings: ComparisonSettings = {},
): Comparison {
  const prediction = predict(code, tests, settings);
  const {
    way = "mode_matched",
    bounds = "every",
    scope = "judged",
    confinedBondFactor = 1,
  } = settings;
  const factorOf = setupFactor(confinedBondFactor);
  const rule = new ScopeRule(prediction, settings.confinedBondFactor !== undefined);
  const [evidence, notJudged, unused]: [Evidence[], NotJudged[], Comparison["unused"][number][]] = [
    [],
    [],
    [],
  ];
  const [excluded, loads, setups, actions] = [
    tests.texts("excluded"),
    tests.numbers("peak_load_kN"),
    tests.texts("setup"),
    tests.texts("action"),
  ];
  const cracks = tests.texts("cracked");
  const least = way === "governing" ? governing(prediction) : null;
  const noPair = (row: number, status: NotJudgedStatus, reason: string): NotJudged => ({
    row,
    column: -1,
    mode: null,
    bound: false,
    status,
    reason,
    value: "",
  });
  for (let row = 0; row < tests.length; row++) {
    const why = excluded[row];
    const both = actions[row] === "tension_and_shear";
    const pairs = why
      ? []
      : both
        ? [interactionPair(prediction, tests, rule, row)]
        : pairsOfTest(prediction, tests, rule, bounds, row);
    const found =
      least && !why && !both
        ? governingPairs(prediction, rule, least, pairs, row, tests.text(row, "failure_mode"))
        : pairs;
    const before = evidence.length;
    const refused: NotJudged[] = why ? [noPair(row, "excluded", why)] : [];
    for (const {
      column,
      mode,
      capacity,
      bound,
      status: { status, reason, value },
      free,
      components,
    } of found) {
      if (status !== "judged") refused.push({ row, column, mode, bound, status, reason, value });
      if (Number.isNaN(capacity) || !free || (status !== "judged" && scope === "judged")) continue;
      const confined =
        setups[row] === "confined_tension" &&
        (prediction.columns[column]?.provision.modes.includes("bond") ?? false);
      const factor = confined ? factorOf(cracks[row] ?? null) : 1;
      if (Number.isNaN(factor)) {
        const why = "the set-up factor depends on whether the concrete was cracked, which is blank";
        if (status === "judged")
          refused.push({
            row,
            column,
            mode,
            bound,
            status: "input missing",
            reason: why,
            value: "",
          });
        continue;
      }
      const load = (loads[row] ?? NaN) * factor;
      evidence.push({
        row,
        column,
        mode,
        load,
        capacity,
        ratio: load / capacity,
        bound,
        ...(components ? { components } : {}),
      });
    }
    if (found.length === 0 && refused.length === 0)
      refused.push(noPair(row, ...whyNoPair(prediction, tests, bounds, row)));
    notJudged.push(...refused);
    const told = refused.find(({ bound }) => !bound) ?? refused[0];
    if (evidence.length === before && told)
      unused.push({ row, status: told.status, reason: told.reason });
  }
  return {
    tests,
    code,
    prediction,
    way,
    bounds,
    scope,
    confinedBondFactor: settings.confinedBondFactor ?? null,
    evidence,
    notJudged,
    unused,
  };
}

/**
 * The pair of the least capacity; where the code has none for the mode that was observed, what
 * keeps it from one.
 */
function governingPairs(
  prediction: CodePrediction,
  rule: ScopeRule,
  least: ReturnType<typeof governing>,
  pairs: readonly Pair[],
  row: number,
  observed: string | null,
): Pair[] {
  const column = least.column[row] ?? -1;
  const provision = prediction.columns[column]?.provision;
  if (!provision || observed === "unknown" || observed === null)
    return pairs.filter(({ capacity }) => Number.isNaN(capacity));
  const bound = observed === "rupture_at_grip" || observed === "stopped";
  // Where the code has no capacity for the mode that was observed, the least of the others is no
  // prediction of the test.
  const foresees = prediction.columns.some(
    (other) =>
      (other.provision.modes as readonly string[]).includes(observed) &&
      other.provision.action === provision.action &&
      !Number.isNaN(other.capacity[row]),
  );
  if (!bound && !foresees)
    return pairs.filter((pair) => !pair.bound && Number.isNaN(pair.capacity));
  const status = rule.at(row, column, (provision.modes as readonly string[]).includes(observed));
  return [
    {
      column,
      mode: provision.modes[0],
      capacity: (least.capacity[row] ?? NaN) / 1000,
      bound,
      status,
      free: true,
    },
  ];
}

function whyNoPair(
  { columns, code, level }: CodePrediction,
  tests: TestTable,
  bounds: BoundRule,
  row: number,
): [NotJudgedStatus, string] {
  const [observed, action, setup] = [
    tests.text(row, "failure_mode"),
    tests.text(row, "action"),
    tests.text(row, "setup"),
  ];
  if (observed === null || observed === "unknown")
    return ["input missing", "the failure mode is unknown"];
  const concerned = columns.some(
    ({ provision }) =>
      provision.action === action && tellsOf(observed, provision.modes, bounds) !== "nothing",
  );
  if (concerned)
    return [
      "set-up does not test this",
      `a test by ${valueWords(setup)} leaves no mode free that ${code.id} predicts`,
    ];
  const of = ["stopped", "rupture_at_grip"].includes(observed)
    ? `that a test in ${action ?? "an unstated action"} bounds`
    : `for the mode ${valueWords(observed)}`;
  return ["capacity of another mode", `${code.id} has no provision at the ${level} level ${of}`];
}
