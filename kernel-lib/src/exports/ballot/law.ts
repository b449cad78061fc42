import { symbolRuns, symbolText, toText, type Expression } from "../../formula";
import type { Draft } from "../draft";
import { escapeText } from "../document/document-html";

/** One line of the change: an equation or a sentence, struck, new or as it stands. */
export interface LawLine {
  readonly change: "inserted" | "deleted" | null;
  readonly text: string;
  /** Number of the equation in the edition; empty where there is none. */
  readonly number: string;
}

/** What changes in a clause, for one page: the heading, and its lines in order. */
export interface LawText {
  readonly heading: string;
  readonly lines: readonly LawLine[];
}

/**
 * The law of a draft without its limits, which a sheet gives as a table: the equations of the
 * edition, the heading of the new sub-clause and its sentences.
 */
export function lawText(draft: Draft): LawText {
  const lines: LawLine[] = [];
  const blocks = draft.blocks({ caution: false });
  const end = blocks.findIndex((one) => one.kind === "provision" && one.title === "Commentary");
  const limits = draft.filledParagraph("limits");
  let heading = "";
  let number = "";
  for (const block of blocks.slice(0, end)) {
    if (block.kind === "formula") {
      const text = `${symbolText(block.symbol)} = ${product(block.expression)}`;
      lines.push({ change: block.change ?? null, text, number });
    } else if (block.kind === "provision") {
      if (block.title !== "") heading = block.title.replace(/ {2,}/, " ");
      for (const { text, change } of block.pieces) {
        const equation = /^Equation \(([^)]*)\)/.exec(text);
        number = equation?.[1] ?? "";
        if (equation) continue;
        if (text === limits) lines.push({ change: "inserted", text: LIMITS, number: "" });
        else lines.push({ change: change ?? null, text, number: "" });
      }
    }
  }
  return { heading, lines };
}

const LIMITS =
  "Outside the limits of the table below, strength shall be established by tests instead.";

/** Running text of a sheet: symbols slanted, subscripts below the line, the prime of f'c. */
export function running(text: string): string {
  return symbolRuns(text.replaceAll(" %", "\u00a0%"))
    .map(({ text: piece, script }) =>
      script === "line"
        ? escapeText(piece)
            .replace(/\bf'c\b/g, "<i>f</i>′<sub>c</sub>")
            .replace(/\^\(?([\d.]+)\)?/g, "<sup>$1</sup>")
        : script === "symbol"
          ? `<i>${escapeText(piece)}</i>`
          : `<sub>${escapeText(piece)}</sub>`,
    )
    .join("");
}

/** A variable of the limits as it is printed, such as `h_ef/d_a`. */
export function symbolWords(symbol: string): string {
  return symbol.split(" / ").map(symbolText).join("/");
}

/** A product as the edition sets it: factors side by side, quotients and sums in brackets. */
function product(e: Expression): string {
  const factor = (one: Expression): string =>
    one.kind === "binary" && one.operator !== "^"
      ? `(${toText(one).replaceAll(" × ", " ")})`
      : toText(one).replaceAll(" × ", " ");
  if (e.kind !== "binary" || e.operator !== "*") return toText(e).replaceAll(" × ", " ");
  const { left, right } = e;
  const first = left.kind === "binary" && left.operator === "*" ? product(left) : factor(left);
  return `${first} ${factor(right)}`;
}
