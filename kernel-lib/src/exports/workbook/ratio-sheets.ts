import type { Comparison, RatioGroup } from "../../comparison";
import { shareText, toleranceFactor } from "../../statistics";
import { addressIn, addressOf, type Cell, type Sheet } from "../../tables";
import { SAME, type HandCheckSheet } from "./hand-check-sheet";

/** How the characteristic values of the groups were derived. */
export interface CharacteristicQuestion {
  readonly fractile: number;
  readonly confidence: number;
  readonly distribution: "normal" | "lognormal";
}

const FACTOR_SHEET = "K";
/** Rows of the table of factors start here (counted from 1). */
const FIRST_FACTOR_ROW = 5;
const INDEPENDENT = "tests taken as independent";
const RATIO_WIDTHS = [24, 38, 14, 16, 14, 22, 12, 38];

/** The exact one-sided tolerance factors by number of tests, to be looked up. */
export function factorSheet(groups: readonly RatioGroup[], question: CharacteristicQuestion): Sheet {
  const most = Math.max(30, ...groups.map(({ n }) => n));
  const { fractile, confidence } = question;
  const rows: Cell[][] = [
    [{ value: "One-sided tolerance factors K", look: "title" }],
    [{ value: `Exact, from the noncentral t distribution; ${100 * fractile} % fractile at ${100 * confidence} % confidence, SD unknown. Characteristic value = mean − K × SD${question.distribution === "lognormal" ? " of the logarithms" : ""}.`, look: "note" }],
    [],
    [{ value: "n", look: "heading" }, { value: "K", look: "heading" }],
  ];
  for (let n = 2; n <= most; n++) rows.push([n, toleranceFactor({ n, fractile, confidence })]);
  return { name: FACTOR_SHEET, rows, widths: [12, 24, 24, 24], frozenRows: FIRST_FACTOR_ROW - 1, merged: [2] };
}

/**
 * The ratios of each group with mean, SD, K and characteristic value as formulas over them. Where a test has a sheet
 * of its own, load and capacity are taken from there, so a change of an input moves the group.
 */
export function ratioSheet(comparison: Comparison, groups: readonly RatioGroup[], question: CharacteristicQuestion, checks: readonly HandCheckSheet[]): Sheet {
  const rows: Cell[][] = [
    [{ value: "Groups of test-to-predicted ratios", look: "title" }],
    [{ value: `${comparison.code.title} (${comparison.code.edition}), ${comparison.prediction.level} level. Ratio = peak load / capacity. Loads and capacities of tests that have a sheet of their own come from there; the others are values that can be changed. K is looked up on the sheet "${FACTOR_SHEET}".`, look: "note" }],
    [],
    ["test", "provision", "load (kN)", "capacity (kN)", "ratio", question.distribution === "lognormal" ? "ln ratio" : "ratio of the library", "check", "remark"].map((value) => ({ value, look: /kN|ratio/.test(value) ? ("headingRight" as const) : value === "check" ? ("headingIndented" as const) : ("heading" as const) })),
  ];
  const known = new Map(checks.map((check) => [`${check.check.test}|${check.check.trace.provision.id}`, check] as const));
  for (const group of groups) addGroup(rows, comparison, group, question, known);
  return { name: "Groups", rows, widths: RATIO_WIDTHS, frozenRows: 4, merged: [2] };
}

function addGroup(rows: Cell[][], comparison: Comparison, group: RatioGroup, question: CharacteristicQuestion, known: ReadonlyMap<string, HandCheckSheet>): void {
  rows.push([{ value: group.label, look: "section" }, ...Array.from({ length: 7 }, (): Cell => ({ value: null, look: "section" }))]);
  // Values first: statistics run over one unbroken column of them.
  const ordered = [...group.evidence].sort((a, b) => Number(a.bound) - Number(b.bound));
  const first = rows.length;
  for (const one of ordered) {
    const at = rows.length;
    const test = comparison.tests.text(one.row, "test_id") ?? "";
    const provision = comparison.prediction.columns[one.column]?.provision.id ?? "";
    const check = known.get(`${test}|${provision}`);
    const [load, capacity, ratio] = [addressOf(2, at), addressOf(3, at), addressOf(4, at)];
    const from = (value: number, address: string | undefined): Cell => (check && address ? { value, formula: addressIn(check.sheet.name, address) } : { value, look: "input" });
    rows.push([
      test, provision, from(one.load, check?.load), from(one.capacity, check?.capacity), { value: one.ratio, formula: `${load}/${capacity}` },
      question.distribution === "lognormal" ? { value: Math.log(one.ratio), formula: `LN(${ratio})` } : one.ratio,
      question.distribution === "lognormal" ? null : agreement(ratio, addressOf(5, at)), one.bound ? "lower bound: did not fail in this mode" : null,
    ]);
  }
  addStatistics(rows, group, question, { first, last: first + group.n - 1 });
  rows.push([]);
}

function agreement(ours: string, theirs: string): Cell {
  return { value: "agrees", formula: `IF(ABS(${ours}/${theirs}-1)<=${SAME.toExponential().toUpperCase()},"agrees","differs")`, look: "unit" };
}

function addStatistics(rows: Cell[][], group: RatioGroup, question: CharacteristicQuestion, { first, last }: { first: number; last: number }): void {
  if (group.lowerBounds > 0) {
    rows.push([null, { value: `${group.n} values and ${group.lowerBounds} lower bounds: mean, SD and characteristic value come from maximum likelihood (library: mean ${text(group.mean)}, SD ${text(group.sd)}, characteristic ${text(group.asTested.lower)} with tests taken as independent). No formula of a spreadsheet gives them.`, look: "wrapped" }], libraryVerdict(group));
    return;
  }
  const range = (column: number): string => `${addressOf(column, first)}:${addressOf(column, last)}`;
  const line = (name: string, formula: string, value: number | null, look: "plain" | "result" = "plain"): string => {
    const at = rows.length;
    const address = addressOf(4, at);
    const stated: Cell[] = value === null ? ["cannot tell", null] : [value, agreement(address, addressOf(5, at))];
    rows.push([null, { value: name, look: "strong" }, null, null, { value: value ?? "", formula, look }, ...stated]);
    return address;
  };
  const n = line("n", `COUNT(${range(4)})`, group.n);
  const mean = line("mean", `AVERAGE(${range(4)})`, group.mean);
  if (group.n < 2) return;
  const sd = line("SD", `STDEV(${range(4)})`, group.sd);
  line("COV", `${sd}/${mean}`, group.cov);
  line("mean − 3 SD", `${mean}-3*${sd}`, group.meanMinus3Sd);
  if (group.k === null || group.asTested.lower === null) {
    rows.push([null, { value: `No characteristic value: ${group.reason}.`, look: "wrapped" }]);
    return;
  }
  const k = line("K, looked up", `VLOOKUP(${n},${addressIn(FACTOR_SHEET, "$A:$B")},2,FALSE)`, group.k);
  const bound = question.distribution === "lognormal" ? `EXP(AVERAGE(${range(5)})-${k}*STDEV(${range(5)}))` : `${mean}-${k}*${sd}`;
  const independent = line(`characteristic ratio, ${INDEPENDENT}`, bound, group.asTested.lower, "result");
  const alone = group.asTested.lower >= 1 ? "meets" : "does not meet";
  rows.push([null, { value: `verdict, ${INDEPENDENT}`, look: "strong" }, null, null, { value: alone, formula: `IF(${independent}>=1,"meets","does not meet")` }, alone]);
  rows.push(libraryVerdict(group));
}

/** The verdict in general mixes many fits over the intraclass correlation, which no formula of a spreadsheet gives. */
function libraryVerdict({ inGeneral: { verdict, reason, icc } }: RatioGroup): Cell[] {
  const effect = icc === null ? "" : ` Series effect included (intraclass correlation ${shareText(icc)}), which no spreadsheet formula gives.`;
  return [null, { value: `Verdict in general, from the library: ${verdict}; ${reason}${effect}`, look: "wrapped" }];
}

function text(value: number | null): string {
  return value === null ? "cannot tell" : value.toPrecision(6);
}
