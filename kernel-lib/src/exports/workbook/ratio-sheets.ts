import type { Comparison, RatioGroup } from "../../comparison";
import { interactionRule } from "../../provisions";
import { shareText, toleranceFactor } from "../../statistics";
import { addressIn, addressOf, type Cell, type Sheet } from "../../tables";
import { SAME, type HandCheckSheet } from "./hand-check-sheet";

/** What is asked of the groups; the distribution is that of each group. */
export interface CharacteristicQuestion {
  readonly fractile: number;
  readonly confidence: number;
}

const FACTOR_SHEET = "K";
/** Rows of the table of factors start here (counted from 1). */
const FIRST_FACTOR_ROW = 5;
const RATIO_WIDTHS = [24, 44, 14, 16, 14, 22, 12, 38];

/**
 * Confidences of the lower bound, of the median estimate and of the upper bound, in the order of
 * the columns of factors.
 */
function confidencesOf({
  confidence,
}: CharacteristicQuestion): readonly [lower: number, median: number, upper: number] {
  return [confidence, 0.5, 1 - confidence];
}

const percent = (share: number): string => `${Number((100 * share).toPrecision(6))} %`;

/** The exact one-sided tolerance factors by number of tests and confidence, to be looked up. */
export function factorSheet(
  groups: readonly RatioGroup[],
  question: CharacteristicQuestion,
): Sheet {
  const most = Math.max(30, ...groups.map(({ n }) => n));
  const { fractile } = question;
  const levels = confidencesOf(question);
  const rows: Cell[][] = [
    [{ value: "One-sided tolerance factors K", look: "title" }],
    [
      {
        value: `Exact, from the noncentral t distribution; ${percent(fractile)} fractile, SD unknown. Mean − K × SD (of the logarithms for a lognormal distribution) is the lower bound of the fractile with K at ${percent(levels[0])} confidence, its median estimate with K at 50 %, and its upper bound with K at ${percent(levels[2])}.`,
        look: "note",
      },
    ],
    [],
    [
      { value: "n", look: "heading" },
      ...levels.map((level): Cell => ({ value: `K at ${percent(level)}`, look: "heading" })),
    ],
  ];
  for (let n = 2; n <= most; n++)
    rows.push([n, ...levels.map((confidence) => toleranceFactor({ n, fractile, confidence }))]);
  return {
    name: FACTOR_SHEET,
    rows,
    widths: [12, 24, 24, 24],
    frozenRows: FIRST_FACTOR_ROW - 1,
    merged: [2],
  };
}

/**
 * The ratios of each group with mean, SD, K, the bounds as tested and the verdict as tested as
 * formulas over them. Where a test has a sheet of its own, load and capacity are taken from there,
 * so a change of an input moves the group.
 */
export function ratioSheet(
  comparison: Comparison,
  groups: readonly RatioGroup[],
  question: CharacteristicQuestion,
  checks: readonly HandCheckSheet[],
): Sheet {
  const lognormal = groups[0]?.distribution === "lognormal";
  const rows: Cell[][] = [
    [{ value: "Groups of test-to-predicted ratios", look: "title" }],
    [
      {
        value: `${comparison.code.title} (${comparison.code.edition}), ${comparison.prediction.level} level, ${lognormal ? "lognormal" : "normal"} distribution. Ratio = peak load / capacity. Loads and capacities of tests that have a sheet of their own come from there; the others are values that can be changed. K is looked up on the sheet "${FACTOR_SHEET}". As tested: series effect ignored. In general: for a further series, series effect included.`,
        look: "note",
      },
    ],
    [],
    [
      "test",
      "provision",
      "load (kN)",
      "capacity (kN)",
      "ratio",
      lognormal ? "ln ratio" : "ratio of the library",
      "check",
      "remark",
    ].map((value) => ({
      value,
      look: /kN|ratio/.test(value)
        ? ("headingRight" as const)
        : value === "check"
          ? ("headingIndented" as const)
          : ("heading" as const),
    })),
  ];
  const known = new Map(
    checks.map(
      (check) => [`${check.check.test}|${check.check.trace.provision.id}`, check] as const,
    ),
  );
  for (const group of groups) addGroup(rows, comparison, group, question, known);
  return { name: "Groups", rows, widths: RATIO_WIDTHS, frozenRows: 4, merged: [2] };
}

function addGroup(
  rows: Cell[][],
  comparison: Comparison,
  group: RatioGroup,
  question: CharacteristicQuestion,
  known: ReadonlyMap<string, HandCheckSheet>,
): void {
  rows.push([
    { value: group.label, look: "section" },
    ...Array.from({ length: 7 }, (): Cell => ({ value: null, look: "section" })),
  ]);
  // Values first: statistics run over one unbroken column of them.
  const lognormal = group.distribution === "lognormal";
  const ordered = [...group.evidence].sort((a, b) => Number(a.bound) - Number(b.bound));
  const first = rows.length;
  for (const one of ordered) {
    const at = rows.length;
    const test = comparison.tests.text(one.row, "test_id") ?? "";
    const { code, columns, settings } = comparison.prediction;
    const provision =
      one.column < 0
        ? `${code.id}/${interactionRule(code, settings)?.clause ?? ""}`
        : (columns[one.column]?.provision.id ?? "");
    const check = known.get(`${test}|${provision}`);
    const [load, capacity, ratio] = [addressOf(2, at), addressOf(3, at), addressOf(4, at)];
    const from = (value: number, address: string | undefined): Cell =>
      check && address
        ? { value, formula: addressIn(check.sheet.name, address) }
        : { value, look: "input" };
    rows.push([
      test,
      provision,
      from(one.load, check?.load),
      from(one.capacity, check?.capacity),
      { value: one.ratio, formula: `${load}/${capacity}` },
      lognormal ? { value: Math.log(one.ratio), formula: `LN(${ratio})` } : one.ratio,
      lognormal ? null : agreement(ratio, addressOf(5, at)),
      one.bound ? "lower bound: stopped or failed in another mode" : null,
    ]);
  }
  addStatistics(rows, group, question, {
    first,
    last: first + ordered.filter(({ bound }) => !bound).length - 1,
  });
  rows.push([]);
}

function agreement(ours: string, theirs: string): Cell {
  return {
    value: "agrees",
    formula: `IF(ABS(${ours}/${theirs}-1)<=${SAME.toExponential().toUpperCase()},"agrees","differs")`,
    look: "unit",
  };
}

function addStatistics(
  rows: Cell[][],
  group: RatioGroup,
  question: CharacteristicQuestion,
  { first, last }: { first: number; last: number },
): void {
  const note = (says: string): void => void rows.push([null, { value: says, look: "wrapped" }]);
  const { asTested } = group;
  const fromLibrary = `As tested, from the library: ${asTested.verdict} (estimate ${text(asTested.fractile)}, lower bound ${text(asTested.lower)}, upper bound ${text(asTested.upper)}); ${asTested.reason}`;
  const noFormula = withoutFormula(group, last - first + 1);
  if (noFormula !== null) {
    note(
      `${noFormula} Library: mean ${text(group.mean)}, SD ${text(group.sd)}. No spreadsheet formula gives them.`,
    );
    note(fromLibrary);
    rows.push(libraryVerdict(group));
    return;
  }
  const range = (column: number): string =>
    `${addressOf(column, first)}:${addressOf(column, last)}`;
  const line = (
    name: string,
    formula: string,
    value: number | null,
    look: "plain" | "result" = "plain",
  ): string => {
    const at = rows.length;
    const address = addressOf(4, at);
    const stated: Cell[] =
      value === null ? ["not known", null] : [value, agreement(address, addressOf(5, at))];
    rows.push([
      null,
      { value: name, look: "strong" },
      null,
      null,
      { value: value ?? "", formula, look },
      ...stated,
    ]);
    return address;
  };
  const n = line("n", `COUNT(${range(4)})`, group.n);
  const mean = line("mean", `AVERAGE(${range(4)})`, group.mean);
  if (group.n >= 2) {
    const sd = line("SD", `STDEV(${range(4)})`, group.sd);
    line("COV", `${sd}/${mean}`, group.cov);
    line("mean − 3 SD", `${mean}-3*${sd}`, group.meanMinus3Sd);
    if (group.k === null || asTested.lower === null) note(fromLibrary);
    else {
      const [levels, values] = [
        confidencesOf(question),
        [asTested.lower, asTested.fractile, asTested.upper],
      ];
      const names = [
        `r_k, as tested (lower bound of the ${percent(question.fractile)} fractile)`,
        `${percent(question.fractile)} fractile, as tested (median estimate)`,
        "upper bound, as tested",
      ];
      const [lower, , upper] = levels.map((confidence, k) => {
        const factor = line(
          `K at ${percent(confidence)}, looked up`,
          `VLOOKUP(${n},${addressIn(FACTOR_SHEET, "$A:$D")},${k + 2},FALSE)`,
          k === 0
            ? group.k
            : toleranceFactor({ n: group.n, fractile: question.fractile, confidence }),
        );
        const bound =
          group.distribution === "lognormal"
            ? `EXP(AVERAGE(${range(5)})-${factor}*STDEV(${range(5)}))`
            : `${mean}-${factor}*${sd}`;
        return line(names[k]!, bound, values[k] ?? null, k === 0 ? "result" : "plain");
      });
      const at = rows.length;
      rows.push([
        null,
        { value: "verdict, as tested", look: "strong" },
        null,
        null,
        {
          value: asTested.verdict,
          formula: `IF(${lower}>=1,"meets",IF(${upper}<1,"falls short","undecided"))`,
        },
        asTested.verdict,
        {
          value: "agrees",
          formula: `IF(${addressOf(4, at)}=${addressOf(5, at)},"agrees","differs")`,
          look: "unit",
        },
      ]);
    }
  } else note(fromLibrary);
  rows.push(libraryVerdict(group));
}

/** Why no formula over the ratios gives the numbers as tested; null where formulas do. */
function withoutFormula({ n, lowerBounds, asTested }: RatioGroup, failures: number): string | null {
  if (lowerBounds > 0)
    return `${n} failures and ${lowerBounds} lower bounds, treated as right-censored: mean, SD and bounds come from maximum likelihood.`;
  if (n !== failures)
    return `${failures} rows stand for ${n} specimens, by the reported means and standard deviations.`;
  return asTested.verdict === "undecided" && asTested.lower! >= 1
    ? "Rows are means of specimens whose own scatter is not reported."
    : null;
}

/**
 * The verdict in general mixes many fits over the intraclass correlation, which no formula of a
 * spreadsheet gives.
 */
function libraryVerdict({ inGeneral: { verdict, reason, icc } }: RatioGroup): Cell[] {
  const effect =
    icc === null
      ? ""
      : ` Series effect included (intraclass correlation ${shareText(icc)}), which no spreadsheet formula gives.`;
  return [
    null,
    {
      value: `Verdict in general, from the library: ${verdict}; ${reason}${effect}`,
      look: "wrapped",
    },
  ];
}

function text(value: number | null): string {
  return value === null ? "not known" : value.toPrecision(6);
}
