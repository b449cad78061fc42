import { parseFormula, symbolsOf } from "../../formula";
import { INPUTS, isInput, type InputDefinition, type InputName } from "../inputs/catalogue";
import type { TestColumns } from "../inputs/prepare";
import { rowWindows } from "../inputs/row-window";
import { MISSING } from "./loop-plan";
import { symbolsRead } from "./provision-symbols";
import type { CodeDefinition, Limit, ProvisionDefinition } from "./definition";
import {
  predict,
  type CodePrediction,
  type PredictionSettings,
  type ProvisionColumn,
} from "./predict";
import { missingFinder } from "./reasons";
import { hasLoad, setupAllows } from "./setup-modes";
import { substitutionFinder } from "./substituted";
import { statementOf } from "./yes-or-no";

/**
 * What keeps one provision from being applied to some rows, or is read as the plain case for want
 * of a statement.
 */
export interface PredictionNeed {
  readonly code: CodeDefinition;
  readonly provision: ProvisionDefinition;
  /**
   * `withheld`: no capacity until the columns are filled. `read_as_far`: the capacity counts every
   * edge as far. `read_as_uncapped`: the bar's strength is not stated and caps the stress developed
   * nowhere. These two give the largest capacity, so the least ratio. `replaced`: another column's
   * value was used in the place of a blank one, see `restsOnFinder`.
   */
  readonly effect: "withheld" | "read_as_far" | "read_as_uncapped" | "replaced";
  /** Columns of the data contract, in the order in which the formulas ask for them. */
  readonly columns: readonly string[];
  /** Rows that lack them, by index. */
  readonly rows: readonly number[];
  /**
   * Rows that the provision concerns: kept, of its action, in an arrangement that leaves its mode
   * free, within its limits.
   */
  readonly concerned: number;
}

const EDGES = ["c_1", "c_2", "c_3", "c_4"] as const satisfies readonly InputName[];

/**
 * Which columns are blank where a provision of a code asks for them, from the provision's own
 * inputs and limits: what its formulas rest on in the branch that the row takes, what a failing
 * limit reads and the row leaves blank although it failed in that mode, and edges or a bar strength
 * that nobody has stated and that are therefore read as the plain case (`other_edges` = far states
 * the edges). Without a level each provision is asked at the nominal one, mean models at the
 * expected one.
 * @param tests table of tests in the columns of the data contract; rows with an exclusion reason
 *   are passed over
 * @returns one need for each provision and set of columns; the most frequent first within a
 *   provision
 * @example
 * predictionNeeds(code("aci318-19"), data.tests).filter(({ effect }) => effect === "withheld")
 */
export function predictionNeeds(
  code: CodeDefinition,
  tests: TestColumns,
  settings: PredictionSettings = {},
): PredictionNeed[] {
  const tallies = new Map<ProvisionDefinition, Tally>();
  for (const window of rowWindows(tests)) {
    const prediction = predict(code, window.tests, settings);
    countNeeds(prediction, window.from, tallies);
    // Mean models state nothing at the nominal level: where none is asked for, they say what they
    // need at their own.
    if (settings.level === undefined && prediction.unstated.length > 0)
      countNeeds(
        predict({ ...code, provisions: prediction.unstated }, window.tests, {
          ...settings,
          level: "expected",
        }),
        window.from,
        tallies,
      );
  }
  return [...tallies].flatMap(([provision, { concerned, found }]) =>
    [...found.values()]
      .sort((a, b) => b.rows.length - a.rows.length)
      .map((need) => ({ code, provision, concerned, ...need })),
  );
}

/** What is counted for one provision, window by window. */
interface Tally {
  concerned: number;
  readonly found: Map<
    string,
    { effect: PredictionNeed["effect"]; columns: string[]; rows: number[] }
  >;
}

function countNeeds(
  prediction: CodePrediction,
  from: number,
  tallies: Map<ProvisionDefinition, Tally>,
): void {
  for (const column of prediction.columns) {
    const tally = tallies.get(column.provision) ?? { concerned: 0, found: new Map() };
    tallies.set(column.provision, tally);
    countNeedsOf(prediction, column, from, tally);
  }
}

function countNeedsOf(
  prediction: CodePrediction,
  column: ProvisionColumn,
  from: number,
  tally: Tally,
): void {
  const {
    specimens: { tests },
  } = prediction;
  const { provision, flags } = column;
  const [actions, setups, modes] = [
    tests.texts("action"),
    tests.texts("setup"),
    tests.texts("failure_mode"),
  ];
  const excluded = tests.has("excluded") ? tests.texts("excluded") : [];
  const withholding = provision.limits.reduce(
    (bits, { effect }, k) => (effect === "not_applicable" ? bits | (1 << k) : bits),
    0,
  );
  const asked = (names: Iterable<string>, i: number): string[] => [
    ...new Set([...names].filter(isInput).map((name) => columnOf(tests, name, i))),
  ];
  const unstated = edgesUnstated(prediction, provision);
  const uncapped = strengthUnstated(prediction, provision);
  const take = (effect: PredictionNeed["effect"], columns: string[], i: number): void => {
    const known = tally.found.get(`${effect} ${columns.join(" ")}`);
    if (known) known.rows.push(from + i);
    else if (columns.length > 0)
      tally.found.set(`${effect} ${columns.join(" ")}`, { effect, columns, rows: [from + i] });
  };
  const missing = missingFinder(prediction, provision);
  const replaced = substitutionFinder(prediction, column);
  for (let i = 0; i < tests.length; i++) {
    if (
      (excluded[i] ?? null) !== null ||
      !hasLoad(actions[i] ?? null, provision.action) ||
      !provision.modes.some((mode) => setupAllows(setups[i] ?? null, mode))
    )
      continue;
    const flag = flags[i] ?? 0;
    const outside = (flag & withholding) !== 0;
    const failedInMode = (provision.modes as readonly string[]).includes(modes[i] ?? "");
    // Edge breakout has a provision for each edge: where one of them answers, the others' edges are
    // no gap.
    if (
      outside &&
      (!failedInMode ||
        prediction.columns.some(
          (other) =>
            other.provision.modes[0] === provision.modes[0] && !Number.isNaN(other.capacity[i]),
        ))
    )
      continue;
    const blanks = outside
      ? provision.limits
          .filter((_, k) => (flag & withholding & (1 << k)) !== 0)
          .map((limit) => blanksOf(prediction, limit, i))
      : [];
    // What no column could mend is no gap either: a rule for glass does not concern a basalt bar.
    if (blanks.some((names) => names.length === 0)) continue;
    tally.concerned += 1;
    if (outside) take("withheld", asked(blanks.flat(), i), i);
    else if ((flag & MISSING) !== 0) take("withheld", asked(missing(i), i), i);
    else if (unstated?.(i)) take("read_as_far", ["edge_1_mm"], i);
    else if (uncapped?.(i)) take("read_as_uncapped", ["bar_strength_MPa"], i);
    else {
      const says = replaced(i);
      if (says !== null) take("replaced", [says.slice(0, says.indexOf(" "))], i);
    }
  }
}

/**
 * The column that an input asks for; of a strength on an unknown basis it is the basis that is
 * missing.
 */
function columnOf(tests: TestColumns, name: InputName, i: number): string {
  if (
    name === "f_c" &&
    tests.has("concrete_strength_MPa") &&
    !Number.isNaN(tests.numbers("concrete_strength_MPa")[i] ?? NaN)
  )
    return "concrete_strength_basis";
  return (INPUTS[name] as InputDefinition).column ?? name;
}

/**
 * Inputs for want of which a limit fails: distances that are then far, or words where the row gives
 * none of those that the limit reads.
 */
export function blanksOf(
  { specimens: { tests } }: CodePrediction,
  limit: Limit,
  i: number,
): string[] {
  const read = [...symbolsOf(parseFormula(limit.holds))].filter(isInput);
  const column = (name: InputName): string => (INPUTS[name] as InputDefinition).column ?? name;
  const far = read.filter(
    (name) =>
      (INPUTS[name] as InputDefinition).blank === Infinity &&
      (!tests.has(column(name)) || Number.isNaN(tests.numbers(column(name))[i] ?? NaN)),
  );
  const words = read.filter((name) => statementOf(INPUTS[name].meaning) !== null);
  const unsaid = words.every(
    (name) =>
      !tests.has(column(name)) || ["", "unknown"].includes(tests.texts(column(name))[i] ?? ""),
  );
  return unsaid ? [...far, ...words] : far;
}

/**
 * For a provision that caps a developed stress by the bar's strength: whether a row states no
 * strength.
 */
export function strengthUnstated(
  { code, specimens }: CodePrediction,
  provision: ProvisionDefinition,
): ((i: number) => boolean) | null {
  return symbolsRead(code, provision).some(({ name }) => name === "f_u_cap")
    ? (i) => Number.isNaN(specimens.value("f_u", i))
    : null;
}

/**
 * For a provision that reads edges: whether a row states none of them, neither by a distance nor by
 * the word that they are far.
 */
export function edgesUnstated(
  { code, specimens: { tests } }: CodePrediction,
  provision: ProvisionDefinition,
): ((i: number) => boolean) | null {
  const read = new Set(symbolsRead(code, provision).map(({ name }) => name));
  if (!EDGES.some((name) => read.has(name))) return null;
  const distances = EDGES.map((name) => INPUTS[name].column)
    .filter((name) => tests.has(name))
    .map((name) => tests.numbers(name));
  const stated = tests.has("other_edges") ? tests.texts("other_edges") : [];
  return (i) =>
    (stated[i] ?? null) === null && distances.every((distance) => Number.isNaN(distance[i] ?? NaN));
}
