import type { DifferenceList } from "./difference";
import { markupTokens } from "./markup-tokens";
import type { MarkupToken } from "./markup-tokens";

/**
 * Two coordinates of a drawing that differ by no more than this are the same, in its own units of
 * 1/96 inch: twice the last decimal that the library writes, so that another version of the layout
 * may round the other way. A mark at another place differs by far more.
 */
const SAME_PLACE = 0.02;

/** Names of fonts: the same drawing may be shown in another sans serif. */
const FONT_NAMES: ReadonlySet<string> = new Set(["font-family"]);

const NUMBERS = /[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?/g;

/** Differences that are quoted; beyond that their number is said. */
const MOST_QUOTED = 3;

/**
 * Compares two SVG drawings element by element: names, attributes and texts exactly, coordinates
 * within 0.02 px, fonts by any name.
 */
export function compareDrawings(
  where: string,
  recorded: string,
  rerun: string,
  list: DifferenceList,
): void {
  if (recorded.trim() === rerun.trim()) return;
  const [before, after] = [markupTokens(recorded), markupTokens(rerun)];
  const apart: number[] = [];
  for (let index = 0; index < Math.max(before.length, after.length); index++)
    if (!sameToken(before[index], after[index])) {
      apart.push(index);
      if (before.length !== after.length) break;
    }
  for (const index of apart.slice(0, MOST_QUOTED)) {
    const [a, b] = quotedApart(before[index], after[index]);
    list.other(`${where}, drawn part ${index + 1}`, a, b);
  }
  if (apart.length > MOST_QUOTED || (apart.length > 0 && before.length !== after.length))
    list.other(
      `${where}, drawn parts`,
      String(before.length),
      `${after.length}, ${apart.length} or more of them others`,
    );
}

function sameToken(a: MarkupToken | undefined, b: MarkupToken | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  if (a.kind === "text" || b.kind === "text")
    return a.kind === "text" && b.kind === "text" && a.text === b.text;
  if (a.text === b.text) return true;
  const [before, after] = [a.attributes, b.attributes];
  if (a.name === "" || a.name !== b.name || !before || !after) return false;
  return [...new Set([...before.keys(), ...after.keys()])].every(
    (name) => FONT_NAMES.has(name) || sameValue(before.get(name), after.get(name)),
  );
}

/** Attributes hold numbers among words: the words are the same, the numbers nearly so. */
function sameValue(a: string | undefined, b: string | undefined): boolean {
  if (a === b) return true;
  if (a === undefined || b === undefined) return false;
  // A color or an id is no coordinate.
  if (/#|url\(/.test(a) || a.replace(NUMBERS, "0") !== b.replace(NUMBERS, "0")) return false;
  const [numbers, others] = [a.match(NUMBERS) ?? [], b.match(NUMBERS) ?? []];
  return numbers.every(
    (text, index) => Math.abs(Number(text) - Number(others[index])) <= SAME_PLACE,
  );
}

/** The two parts from shortly before where they part, so that long paths show what differs. */
function quotedApart(a: MarkupToken | undefined, b: MarkupToken | undefined): [string, string] {
  const [one, two] = [a?.text ?? "(nothing)", b?.text ?? "(nothing)"];
  let at = 0;
  while (at < one.length && one[at] === two[at]) at++;
  const from = Math.max(0, at - 30);
  const cut = (text: string): string =>
    `${from > 0 ? "…" : ""}${text.slice(from, at + 50)}${text.length > at + 50 ? "…" : ""}`;
  return [cut(one), cut(two)];
}
