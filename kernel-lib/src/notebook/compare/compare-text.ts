import type { DifferenceList } from "./difference";
import { VOLATILE_RULES } from "./volatile-rules";

// A number that stands alone: not part of a name such as "cell2".
const NUMBER = /(?<![\w.])[-+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?(?![\w])/g;

/** Compares two texts line by line: numbers as numbers, everything else exactly. */
export function compareText(where: string, recorded: string, rerun: string, list: DifferenceList): void {
  if (recorded === rerun) return;
  const before = recorded.replace(/\n$/, "").split("\n");
  const after = rerun.replace(/\n$/, "").split("\n");
  for (let line = 0; line < Math.max(before.length, after.length); line++) {
    const place = Math.max(before.length, after.length) > 1 ? `${where}, line ${line + 1}` : where;
    const [a, b] = [before[line], after[line]];
    if (a === undefined) list.other(place, "(no such line)", b ?? "");
    else if (b === undefined) list.other(place, a, "(no such line)");
    else if (a !== b) compareLine(place, a, b, list);
  }
}

function compareLine(where: string, recorded: string, rerun: string, list: DifferenceList): void {
  // Minus signs are typeset in two ways.
  const [before, after] = [recorded, rerun].map((text) => text.replace(/\u2212/g, "-")) as [string, string];
  const rules = VOLATILE_RULES.filter(({ pattern }) => before.search(pattern) >= 0 || after.search(pattern) >= 0);
  const mask = (text: string): string => rules.reduce((masked, { pattern, name }) => masked.replace(pattern, `<${name}>`), text);
  const [maskedBefore, maskedAfter] = [mask(before), mask(after)];
  if (maskedBefore === maskedAfter && before !== after) {
    list.other(where, recorded, rerun, rules.map(({ name }) => name).join(", "));
    return;
  }
  const numbersBefore = maskedBefore.match(NUMBER) ?? [];
  const numbersAfter = maskedAfter.match(NUMBER) ?? [];
  const sameWords = words(maskedBefore) === words(maskedAfter);
  if (!sameWords || numbersBefore.length !== numbersAfter.length) {
    list.other(where, recorded, rerun);
    return;
  }
  numbersBefore.forEach((text, index) => {
    const place = numbersBefore.length > 1 ? `${where}, number ${index + 1}` : where;
    list.number(place, Number(text), Number(numbersAfter[index]));
  });
}

/** A text without its numbers and the spaces that align them. */
export function words(text: string): string {
  return text.replace(NUMBER, "#").replace(/\s+/g, " ").trim();
}
