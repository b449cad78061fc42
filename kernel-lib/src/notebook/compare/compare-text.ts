import { align } from "./align";
import type { DifferenceList } from "./difference";
import { VOLATILE_RULES } from "./volatile-rules";

// A number that stands alone: not part of a name such as "cell2".
const NUMBER = /(?<![\w.])[-+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?(?![\w])/g;

/** Compares two texts line by line: numbers as numbers, everything else exactly. */
export function compareText(
  where: string,
  recorded: string,
  rerun: string,
  list: DifferenceList,
): void {
  if (recorded === rerun) return;
  const before = recorded.replace(/\n$/, "").split("\n");
  const after = rerun.replace(/\n$/, "").split("\n");
  for (const [index, otherIndex] of align(before.map(words), after.map(words))) {
    const [a, b] = [
      index === undefined ? undefined : before[index],
      otherIndex === undefined ? undefined : after[otherIndex],
    ];
    if (a === b) continue;
    const place =
      Math.max(before.length, after.length) > 1
        ? `${where}, line ${(index ?? otherIndex ?? 0) + 1}${index === undefined ? " of the rerun" : ""}`
        : where;
    list.within(
      {
        ...(index === undefined ? {} : { recordedLine: index + 1 }),
        ...(otherIndex === undefined ? {} : { rerunLine: otherIndex + 1 }),
      },
      () => {
        if (a === undefined) list.other(place, "(no such line)", b ?? "");
        else if (b === undefined) list.other(place, a, "(no such line)");
        else compareLine(place, a, b, list);
      },
    );
  }
}

function compareLine(where: string, recorded: string, rerun: string, list: DifferenceList): void {
  // Minus signs are typeset in two ways.
  const [before, after] = [recorded, rerun].map((text) => text.replace(/\u2212/g, "-")) as [
    string,
    string,
  ];
  const fired = VOLATILE_RULES.filter(
    ({ pattern }) => String(before.match(pattern)) !== String(after.match(pattern)),
  );
  const mask = (text: string): string =>
    VOLATILE_RULES.reduce(
      (masked, { pattern, name }) => masked.replace(pattern, `<${name}>`),
      text,
    );
  const [maskedBefore, maskedAfter] = [mask(before), mask(after)];
  const numbersBefore = maskedBefore.match(NUMBER) ?? [];
  const numbersAfter = maskedAfter.match(NUMBER) ?? [];
  if (words(maskedBefore) !== words(maskedAfter) || numbersBefore.length !== numbersAfter.length) {
    list.other(where, recorded, rerun);
    return;
  }
  if (fired.length > 0)
    list.other(where, recorded, rerun, fired.map(({ name }) => name).join(", "));
  numbersBefore.forEach((text, index) => {
    const place = numbersBefore.length > 1 ? `${where}, number ${index + 1}` : where;
    list.number(place, Number(text), Number(numbersAfter[index]));
  });
}

/** A text without its numbers and the spaces that align them. */
export function words(text: string): string {
  return text.replace(NUMBER, "#").replace(/\s+/g, " ").trim();
}
