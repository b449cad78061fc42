import type { DifferenceList } from "./difference";
import { markupTokens, tokenText } from "./markup-tokens";
import type { MarkupToken } from "./markup-tokens";

/** Differences between tags that are quoted; beyond that their number is said. */
const MOST_QUOTED = 3;

const EXACT = / data-value="([-+.\deE]+)"/;

/**
 * Compares the tags of two pieces of HTML and where text stands among them, not the text: a hidden
 * row, another color or size, a style sheet, or a link counts as a change, as it changes what a
 * reader sees. Exact numbers that stand behind a written one (`data-value`) are compared as
 * numbers. `dataChanged`: rows may have come or gone, so that only tags which the other side has
 * nowhere are told.
 */
export function compareTags(
  where: string,
  recorded: string,
  rerun: string,
  dataChanged: boolean,
  list: DifferenceList,
): void {
  if (recorded === rerun) return;
  const place = `${where}, styles and visibility`;
  const [before, after] = [markupTokens(recorded), markupTokens(rerun)];
  if (dataChanged) {
    const [more, fewer] = [onlyIn(before, after), onlyIn(after, before)];
    if (more.length > 0 || fewer.length > 0) list.other(place, quoted(more), quoted(fewer));
    return;
  }
  const apart: number[] = [];
  for (let index = 0; index < Math.max(before.length, after.length); index++) {
    const [a, b] = [before[index], after[index]];
    if (looks(a) !== looks(b)) {
      apart.push(index);
      // From a tag more or less on, all the following would differ.
      if (before.length !== after.length) break;
    } else if (a?.kind === "tag" && a.text !== b?.text) {
      const [exact, other] = [a, b].map((token) => Number(EXACT.exec(token?.text ?? "")?.[1]));
      list.number(`${where}, exact value`, exact ?? NaN, other ?? NaN);
    }
  }
  for (const index of apart.slice(0, MOST_QUOTED))
    list.other(place, tokenText(before[index]), tokenText(after[index]));
  if (apart.length > MOST_QUOTED) list.other(place, `${apart.length} tags`, "others");
}

/** A tag as it may look to a reader: without the exact number behind; any text as a text. */
function looks(token: MarkupToken | undefined): string {
  return token?.kind === "tag" ? token.text.replace(EXACT, " data-value") : (token?.kind ?? "");
}

/** Tags that the other side has nowhere; what only names a row or column does not count. */
function onlyIn(tokens: readonly MarkupToken[], others: readonly MarkupToken[]): string[] {
  const known = new Set(others.map(unnamed));
  return [...new Set(tokens.map(unnamed))].filter((tag) => !known.has(tag));
}

function unnamed(token: MarkupToken): string {
  return looks(token).replace(/ data-(?:row-key|column)="[^"]*"/g, "");
}

function quoted(tags: readonly string[]): string {
  return tags.length === 0 ? "(nothing)" : tags.slice(0, MOST_QUOTED).join(" ");
}
