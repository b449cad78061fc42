import { align } from "./align";
import { compareText, words } from "./compare-text";
import type { DifferenceList } from "./difference";

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
  data: DataState,
  list: DifferenceList,
): void {
  const [before, after] =
    type === "text/html" ? [withoutTags(recorded), withoutTags(rerun)] : [recorded, rerun];
  if (before === after) return;
  const named = `${where}${type === "text/plain" ? "" : ` (${type})`}`;
  if (data === "no_data" || data === "same") return compareText(named, before, after, list);
  if (words(before) !== words(after))
    list.other(
      `${where}, wording (${type})`,
      firstDifference(before, after),
      firstDifference(after, before),
    );
  else if (data === "within_tolerance") compareRounded(named, before, after, list);
}

/** Numbers that differ by more than one unit of their last written digit. */
function compareRounded(
  where: string,
  recorded: string,
  rerun: string,
  list: DifferenceList,
): void {
  const [before, after] = [recorded.split("\n"), rerun.split("\n")];
  for (const [a, b] of align(before.map(words), after.map(words))) {
    const [line = "", other = ""] = [before[a ?? -1], after[b ?? -1]];
    const others = numbersOf(other);
    const apart = numbersOf(line).some(
      (text, index) => Math.abs(Number(text) - Number(others[index])) > 1.01 * lastDigit(text),
    );
    if (apart) list.other(where, line.trim(), other.trim());
  }
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

function withoutTags(html: string): string {
  return html
    .replace(/<\/(?:tr|p|caption|li|h\d|div)>/g, "\n")
    .replace(/<[^<>]*>/g, " ")
    .replace(/[ \t]+/g, " ")
    .trim();
}
