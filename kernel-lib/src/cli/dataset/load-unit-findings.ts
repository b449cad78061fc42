import { diagnostic, type Diagnostic, type TestTable } from "../../dataset";
import { predict, rowWindows, type CodeDefinition, type CodePrediction } from "../../provisions";

/** What a load must be multiplied by if it was entered in another unit than its column states. */
const UNITS: readonly (readonly [factor: number, says: string])[] = [
  [4.4482216152605, "kip entered as kN"],
  [0.0044482216152605, "lbf entered as kN"],
  [1000, "kN entered as N, kip as lbf, or MN as kN"],
  [0.001, "N entered as kN"],
  [9.80665, "tonnes-force entered as kN"],
  [4448.2216152605, "kip entered as N"],
];
/**
 * The median ratio of a study to the lowest nominal capacity below or above which its loads are
 * questioned: tests give about 0.5 to 6.
 */
const BELOW = 0.35;
const ABOVE = 25;
/** How far one load may lie from the median: this factor, and this many times the spread. */
const OFF = 2.8;
const SPREADS = 5;
const LEAST_ROWS = 5;

/**
 * Loads outside the usual range of the predicted capacity: a whole study whose median ratio to
 * the least nominal capacity of the codes asked for the mode observed is below 0.35 or above 25,
 * and single loads that lie off the median of their mode, material and set-up in the study by a
 * factor of 2.8 and five times its spread (median absolute deviation of the logarithms). The likely
 * unit is the one that brings the ratio nearest to what is usual. Of single rows of the invented
 * campaign typed in kip 81 % are named and no other row: a wide group hides some. Warnings only:
 * limits by common practice, no source.
 */
export function loadUnitFindings(
  tests: TestTable,
  codes: readonly CodeDefinition[],
  file: string,
): Diagnostic[] {
  const ratios = logRatios(tests, codes);
  const [studies, ids, excluded] = [
    tests.texts("study_id"),
    tests.texts("test_id"),
    tests.texts("excluded"),
  ];
  const byStudy = new Map<string, number[]>();
  ratios.forEach((ratio, i) => {
    if (Number.isNaN(ratio) || (excluded[i] ?? null) !== null) return;
    const rows = byStudy.get(studies[i] ?? "");
    if (rows) rows.push(i);
    else byStudy.set(studies[i] ?? "", [i]);
  });
  const expected = "loads in the unit of their column";
  return [...byStudy].flatMap(([study, rows]) => {
    if (rows.length < LEAST_ROWS) return [];
    const middle = median(rows.map((i) => ratios[i]!));
    const whole = Math.exp(middle);
    if (whole < BELOW || whole > ABOVE) {
      const message = `the loads of ${study} are ${shown(whole)} of the capacity predicted for the mode observed (median of ${String(rows.length)} rows), usual range about 0.5 to 6: ${likely(middle, 0)}`;
      return [
        diagnostic("warning", "load-unit", message, { file, column: "peak_load_kN", expected }),
      ];
    }
    return alike(tests, rows)
      .flatMap((group) => strayLoads(ratios, group))
      .map(({ row: i, usual }) => {
        const source = tests.source(i);
        const message = `${ids[i] ?? ""}: the load is ${shown(Math.exp(ratios[i]!))} of the capacity predicted for the mode observed where the median of its mode, material and set-up in ${study} is ${shown(Math.exp(usual))}: ${likely(ratios[i]!, usual)}`;
        return diagnostic("warning", "load-unit", message, {
          file: source?.file ?? file,
          row: source?.row ?? null,
          column: "peak_load_kN",
          value: String(tests.numbers("peak_load_kN")[i]),
          expected,
        });
      });
  });
}

/** Rows of one observed mode, bar material and set-up. */
function alike(tests: TestTable, rows: readonly number[]): number[][] {
  const columns = ["failure_mode", "bar_material", "setup"].map((name) => tests.texts(name));
  const groups = new Map<string, number[]>();
  for (const i of rows) {
    const key = columns.map((words) => words[i] ?? "").join(" ");
    const known = groups.get(key);
    if (known) known.push(i);
    else groups.set(key, [i]);
  }
  return [...groups.values()].filter((group) => group.length >= LEAST_ROWS);
}

/** Rows that stand off the median of their group, with that median. */
function strayLoads(
  ratios: readonly number[],
  group: readonly number[],
): { readonly row: number; readonly usual: number }[] {
  const usual = median(group.map((i) => ratios[i]!));
  const spread = median(group.map((i) => Math.abs(ratios[i]! - usual)));
  return group
    .filter((i) => Math.abs(ratios[i]! - usual) > Math.max(Math.log(OFF), SPREADS * spread))
    .map((row) => ({ row, usual }));
}

/**
 * Logarithm of load over the least capacity of the observed mode, nominal level; the middle of
 * those codes that have one.
 */
function logRatios(tests: TestTable, codes: readonly CodeDefinition[]): number[] {
  const loads = tests.numbers("peak_load_kN");
  const least = codes.map((code) => {
    const capacities = new Float64Array(tests.length).fill(NaN);
    for (const window of rowWindows(tests))
      takeOfMode(predict(code, window.tests), window.from, capacities);
    return capacities;
  });
  return Array.from(loads, (load, i) => {
    const found = least.map((capacity) => capacity[i] ?? NaN).filter((capacity) => capacity > 0);
    return found.length === 0 || !(load > 0) ? NaN : Math.log((1000 * load) / median(found));
  });
}

function takeOfMode(
  { columns, specimens: { tests } }: CodePrediction,
  from: number,
  least: Float64Array,
): void {
  const [actions, modes] = [tests.texts("action"), tests.texts("failure_mode")];
  for (const { provision, capacity } of columns) {
    const own: ReadonlySet<string> = new Set(provision.modes);
    capacity.forEach((value, i) => {
      if (
        actions[i] === provision.action &&
        own.has(modes[i] ?? "") &&
        !(value >= (least[from + i] ?? NaN))
      )
        least[from + i] = value;
    });
  }
}

/** The unit that brings a ratio nearest to what is usual; usual is given as a logarithm. */
function likely(ratio: number, usual: number): string {
  const off = (factor: number): number => Math.abs(ratio + Math.log(factor) - usual);
  const [factor, says] = UNITS.reduce((best, one) => (off(one[0]) < off(best[0]) ? one : best));
  return off(factor) < Math.log(OFF)
    ? `check for ${says}. The rows are retained`
    : "check the unit. The rows are retained";
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

const shown = (value: number): string => String(Number(value.toPrecision(2)));
