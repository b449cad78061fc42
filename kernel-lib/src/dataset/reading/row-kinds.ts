import { diagnostic, shortened, type Diagnostic } from "../diagnostics";

/** A record that is no test: why it is left out, and what to say about it. */
export interface NoTest {
  readonly reason: string;
  readonly finding: Diagnostic;
}

const SUMMARY =
  /^(?:(?:mean|average|avg\.?|total|sub-?total|standard deviation|coefficient of variation|median|mittel(?:wert)?|gesamt|summe|standardabweichung|variationskoeffizient|moyenne|total général|écart[- ]type|media|desviación|x̄)(?![\p{L}\d])|(?:sum|s\.?d\.?|std\.?(?:\s*dev\.?)?|cov|c\.o\.v\.?|min(?:imum)?|max(?:imum)?|n|count|σ|ø)[^\p{L}\d]*(?:\(?%?\)?)?$)/iu;

/**
 * Recognises records that hold no test, which laboratories write among their tests: the header once
 * more, lines of means and totals, notes and headings of one cell. They are rejected with a
 * warning each, so that nobody takes them for tests or for faults. A line of means counts as one
 * only where a required cell is blank; a complete row is a test, whatever its name.
 */
export function noTest(
  cells: ReadonlyArray<string>,
  header: ReadonlyArray<string>,
  requiredAt: ReadonlyArray<number>,
  file: string,
  row: number,
): NoTest | null {
  let filled = 0;
  let first = "";
  for (const cell of cells) {
    if (cell === "" || cell.trim() === "") continue;
    if (filled === 0) first = cell.trim();
    filled += 1;
  }
  const say = (rule: string, what: string, reason: string, expected: string): NoTest => ({
    reason,
    finding: diagnostic(
      "warning",
      rule,
      `${file} row ${String(row)} ${what}; it is rejected as no test`,
      { file, row, value: first, expected },
    ),
  });
  if (header.length >= 4 && filled === 1 && !/^[\d.,+-]+$/.test(first))
    return say(
      "note-row",
      `holds one text only, "${shortened(first)}"`,
      "a note or heading, no test",
      "notes in remarks or on the card",
    );
  if (/^(#\s|#$|\/\/|%\s)/.test(first) && filled <= Math.max(2, header.length / 4))
    return say(
      "note-row",
      `is a comment, "${shortened(first)}"`,
      "a comment, no test",
      "notes in remarks or on the card",
    );
  if (filled >= 2 && cells.every((cell, i) => cell.trim() === (header[i] ?? "").trim()))
    return say(
      "repeated-header",
      "repeats the header",
      "the header once more",
      "the header once, above the tests",
    );
  if (SUMMARY.test(first) && requiredAt.some((at) => (cells[at] ?? "").trim() === ""))
    return say(
      "summary-row",
      `looks like a line of means or totals ("${shortened(first)}")`,
      "a line of means or totals, no test",
      "one row for each test",
    );
  return null;
}
