import {
  accountInParts,
  capitalised,
  valueWords,
  type Comparison,
  type RatioGroup,
} from "../../comparison";
import type { BallotSheet } from "../../proposals";
import { roundedText } from "../../tables/rounding";

/** One observed or coded mode of one bar material without a change, and what is known of it. */
export interface ModeLine {
  readonly mode: string;
  readonly bars: string;
  /** Tests that failed in the mode and are used; rows observed where none is. */
  readonly n: number;
  readonly series: number;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly verdict: string;
  readonly says: string;
}

/**
 * Every mode that no change touches, in one line a bar material: the judged ones with their verdict,
 * then those observed in rows that judge nothing, then those of the code that no test shows.
 */
export function modeLines(
  comparison: Comparison,
  groups: readonly RatioGroup[],
  sheets: readonly BallotSheet[],
): readonly ModeLine[] {
  const touched = new Set(
    sheets.flatMap(({ classes }) =>
      classes.filter(({ applied }) => applied !== null).map(({ label }) => label),
    ),
  );
  const judged = groups
    .filter(({ label, n }) => !touched.has(label) && n > 0)
    .map((group): ModeLine => ({
      mode: valueWords(group.by["mode"] ?? null),
      bars: valueWords(group.by["bar_material"] ?? null),
      n: group.n,
      series: group.series,
      lower: group.lower,
      upper: group.upper,
      verdict: group.verdict,
      says: verdictWords(group),
    }));
  const known = new Set(groups.filter(({ n }) => n > 0).map(({ by }) => pairOf(by)));
  const observed = accountInParts(comparison, ["failure_mode", "bar_material"])
    .filter(({ by }) => !known.has(pairOf({ ...by, mode: by["failure_mode"] ?? null })))
    .map((part): ModeLine => ({
      mode: valueWords(part.by["failure_mode"] ?? null),
      bars: valueWords(part.by["bar_material"] ?? null),
      n: part.read,
      series: 0,
      lower: null,
      upper: null,
      verdict: part.lowerBounds > 0 ? "lower bounds only" : "not judged",
      says: observedWords(part),
    }));
  const all = [...judged, ...observed].sort((a, b) =>
    a.mode === b.mode ? (a.bars < b.bars ? -1 : 1) : a.mode < b.mode ? -1 : 1,
  );
  return [...all, ...untested(comparison)];
}

function observedWords({
  read,
  excluded,
  lowerBounds,
  reasons,
}: ReturnType<typeof accountInParts>[number]): string {
  const bounds =
    lowerBounds === 0 ? "" : `${lowerBounds} of ${read} rows are lower bounds of another mode`;
  const out = excluded === 0 ? "" : `${excluded} excluded`;
  const why =
    reasons.length === 0
      ? ""
      : `the set-up or the bar is outside the clause (${reasons.join("; ")})`;
  return [bounds, out, why]
    .filter(Boolean)
    .map((part) => `${capitalised(part)}.`)
    .join(" ");
}

/** Modes for which the code has a provision and no test was observed to fail. */
function untested({ code, tests }: Comparison): ModeLine[] {
  const seen = new Set(tests.texts("failure_mode"));
  const modes = new Set<string>(code.provisions.flatMap(({ modes: of }) => of));
  const none = [...modes].filter((mode) => !seen.has(mode)).map(valueWords);
  return none.map((mode) => ({
    mode,
    bars: "all",
    n: 0,
    series: 0,
    lower: null,
    upper: null,
    verdict: "not tested",
    says: "No row failed in this mode: nothing is proposed and nothing may be concluded.",
  }));
}

const pairOf = (by: Readonly<Record<string, string | number | null>>): string =>
  `${by["mode"] ?? ""}/${by["bar_material"] ?? ""}`;

/** The verdict of a group in one sentence. */
function verdictWords({ verdict, lower, upper, n, series, reason }: RatioGroup): string {
  const of = `(${n} ${n === 1 ? "failure" : "failures"}, ${series} series)`;
  if (lower !== null && upper !== null) {
    if (verdict === "meets") return `r_k = ${beside1(lower)} ≥ 1.0 ${of}.`;
    if (verdict === "falls short")
      return `The upper bound of the 5 % fractile, ${beside1(upper)}, is below 1.0 ${of}.`;
    if (verdict === "undecided")
      return `The bounds of the 5 % fractile, ${beside1(lower)} and ${beside1(upper)}, enclose 1.0 ${of}.`;
  }
  return capitalised(/^.*?\.(?= [A-Z]|$)/.exec(reason)?.[0] ?? reason);
}

/** Rounded, and never so that it looks to be on the other side of 1.0. */
const beside1 = (value: number): string => roundedText(value, 3, 1);
