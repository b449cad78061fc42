import type { RatioGroup } from "../../comparison";
import { shareText, toleranceFactor } from "../../statistics";
import { addressIn, addressOf, type Cell } from "../../tables";
import { SAME } from "./hand-check-layout";
import { type CharacteristicQuestion, confidencesOf, percent, FACTOR_SHEET } from "./factor-sheet";

/** A cell that says whether two others agree. */
export function agreement(ours: string, theirs: string): Cell {
  return {
    value: "agrees",
    formula: `IF(ABS(${ours}/${theirs}-1)<=${SAME.toExponential().toUpperCase()},"agrees","differs")`,
    look: "unit",
  };
}

/**
 * Rows with the numbers of a group: formulas over its ratios where they give them, the library's
 * beside.
 */
export function addStatistics(
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
          `K at ${percent(confidence)}, from the table`,
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
      : ` Series effect included (intraclass correlation ${shareText(icc)}); followed by hand on the sheet "Series".`;
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
