import { align } from "./align";
import { compareTags } from "./compare-tags";
import { compareText, words } from "./compare-text";
import type { DifferenceList } from "./difference";
import { withoutPictures } from "./pictures";

/** Relative distance from the middle of two roundings at which a number may be written either way. */
const NEAR_MIDDLE = 1e-6;

/**
 * What the comparison of the data found, where a table or a figure stands as data beside its text.
 */
export type DataState = "no_data" | "same" | "within_tolerance" | "changed";

/**
 * Compares the written form of an output. Where the data beside it are the same, so must be every
 * number in the text (a note or a caption may hold numbers that the data do not). Data within
 * tolerance may round to another last digit; and where the data have changed, that is told
 * already, so only the words count.
 */
export function compareWritten(
  where: string,
  type: string,
  recorded: string,
  rerun: string,
  state: DataState,
  data: readonly unknown[],
  list: DifferenceList,
): void {
  if (recorded === rerun) return;
  const [whole, other] =
    type === "text/html" ? [withoutPictures(recorded), withoutPictures(rerun)] : [recorded, rerun];
  if (type === "text/html")
    compareTags(`${where} (${type})`, whole, other, state === "changed", list);
  const [before, after] =
    type === "text/html" ? [withoutTags(whole), withoutTags(other)] : [whole, other];
  if (before === after) return;
  const named = `${where}${type === "text/plain" ? "" : ` (${type})`}`;
  if (state === "no_data" || state === "same") return compareText(named, before, after, list);
  if (words(before) !== words(after))
    list.other(
      `${where}, wording (${type})`,
      firstDifference(before, after),
      firstDifference(after, before),
    );
  else if (state === "within_tolerance") compareRounded(named, before, after, data, list);
}

/**
 * Numbers that differ although the data agree within tolerance: only where a number of the data
 * lies so near the middle between two last digits that it may be written either way.
 */
function compareRounded(
  where: string,
  recorded: string,
  rerun: string,
  data: readonly unknown[],
  list: DifferenceList,
): void {
  const exact = [...numbersIn(data)];
  const [before, after] = [recorded.split("\n"), rerun.split("\n")];
  for (const [a, b] of align(before.map(words), after.map(words))) {
    const [line = "", other = ""] = [before[a ?? -1], after[b ?? -1]];
    const others = numbersOf(other);
    const apart = numbersOf(line).some(
      (text, index) => !mayRoundTo(text, others[index] ?? "", exact),
    );
    if (apart) list.other(where, line.trim(), other.trim());
  }
}

/** Whether a number of the data, or its percentage, may be written as either of two texts. */
function mayRoundTo(text: string, other: string, exact: readonly number[]): boolean {
  const [a, b] = [Number(text), Number(other)];
  if (a === b) return true;
  if (!(Math.abs(a - b) <= 1.01 * lastDigit(text))) return false;
  const middle = (a + b) / 2;
  return exact.some((value) =>
    [value, 100 * value].some(
      (one) => Math.abs(Math.abs(one) - Math.abs(middle)) <= NEAR_MIDDLE * Math.abs(one),
    ),
  );
}

function* numbersIn(value: unknown): Generator<number> {
  if (typeof value === "number") yield value;
  else if (typeof value === "object" && value !== null)
    for (const one of Object.values(value)) yield* numbersIn(one);
}

function numbersOf(text: string): string[] {
  return text.replace(/\u2212/g, "-").match(/[-+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?/g) ?? [];
}

function lastDigit(text: string): number {
  const [, decimals = "", exponent = "0"] =
    /^[-+]?\d+(?:\.(\d+))?(?:[eE]([-+]?\d+))?$/.exec(text) ?? [];
  return 10 ** (Number(exponent) - decimals.length);
}

function firstDifference(text: string, other: string): string {
  const others = new Set(other.split("\n").map(words));
  return (
    text
      .split("\n")
      .find((line) => !others.has(words(line)))
      ?.trim() ?? "(a line less)"
  );
}

/** The words of HTML, rows and paragraphs on lines of their own. */
export function withoutTags(html: string): string {
  return html
    .replace(/<\/(?:tr|p|caption|li|h\d|div)>/g, "\n")
    .replace(/<[^<>]*>/g, " ")
    .replace(/[ \t]+/g, " ")
    .trim();
}
