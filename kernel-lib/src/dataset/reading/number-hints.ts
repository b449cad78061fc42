/** A cell that is nearly a number, and what its writer should do about it. */
const HINTS: ReadonlyArray<readonly [RegExp, (cell: string) => string]> = [
  [/^#(REF|DIV\/0|VALUE|NAME|NUM|NULL|SPILL|CALC)[!?]?/i, () => "is a spreadsheet's own error: mend its formula"],
  [/^[>≥]=?\s*[\d.,]/, (cell) => `is a bound, not a value: write ${digits(cell)} and let failure_mode say what ended the test (stopped, say), which makes it a lower bound`],
  [/^[<≤]=?\s*[\d.,]/, () => "is a bound from above, not a value: leave it blank and say so in remarks"],
  [/^(~|≈|ca\.?\s|circa\s|about\s|approx\.?\s)/i, (cell) => `is only approximate: write ${digits(cell)} if it may count as the value, and say so in remarks`],
  [/^[\d.,\s]+(±|\+\/-|\+-)/, (cell) => `holds two numbers: write ${digits(cell)}, and what stands behind it into a column of its own (load_sd_kN where it is the standard deviation of replicates)`],
  [/^\d{1,2}[-./ ]?(jan|feb|mar|mär|apr|may|mai|jun|jul|aug|sep|oct|okt|nov|dec|dez)[a-z]*([-./ ]?\d{2,4})?$/i, () => "looks like a date that a spreadsheet made of a size or range: format the column as text and type it again"],
  [/^(jan|feb|mar|mär|apr|may|mai|jun|jul|aug|sep|oct|okt|nov|dec|dez)[a-z]*[-./ ]\d{1,4}$/i, () => "looks like a date that a spreadsheet made of a size or range: format the column as text and type it again"],
  [/^\d{4}-\d{2}-\d{2}/, () => "looks like a date that a spreadsheet made of a size or range: format the column as text and type it again"],
  [/^#\s*\d{1,2}$|^no\.?\s*\d{1,2}$/i, () => "is the name of a bar: write it into bar_size, and here the number"],
  [/^[ØøφΦ⌀]\s*\d/, () => "has a diameter sign before it: write the number alone"],
  [/^\d+\s+\d+\/\d+$|^\d+\/\d+$/, () => "is a fraction: write it as a decimal number"],
  [/^\d{1,3}([ '’\u00a0\u202f]\d{3})+([.,]\d+)?$/, (cell) => `has a thousands separator: write ${cell.replace(/[ '’\u00a0\u202f]/g, "")}`],
  [/^\d{1,3},\d{3}$/, (cell) => `may be ${cell.replace(",", "")} with a thousands separator or ${cell.replace(",", ".")} with a decimal comma: write which`],
  [/^\d{1,3}(,\d{3})+\.\d+$|^\d{1,3}(,\d{3}){2,}$/, (cell) => `has a thousands separator: write ${cell.replaceAll(",", "")}`],
  [/^\d{1,3}(\.\d{3})+,\d+$|^\d{1,3}(\.\d{3}){2,}$/, (cell) => `has a thousands separator: write ${cell.replaceAll(".", "")}`],
  [/^\d+([.,]\d+)?\s*[-–—]\s*\d+([.,]\d+)?$/, () => "is a range, not a value: write one row for each test, or leave it blank"],
  [/^[+-]?\d+([.,]\d+)?\s*[*†‡§¹²³]+$|^[+-]?\d+([.,]\d+)?\s*\([a-z0-9]{1,2}\)$/i, (cell) => `has a footnote's mark behind it: write ${digits(cell)}, and the note into remarks`],
  [/^[+-]?\d+([.,]\d+)?\s*(kN|N|MN|lbf|kips?|mm2?|cm|m|in\.?|ft|MPa|GPa|psi|ksi|")$/i, () => "has its unit behind it: the unit belongs into the column's name, the number alone here"],
];

function digits(cell: string): string {
  return /\d+([.,]\d+)?/.exec(cell)?.[0] ?? "the number";
}

/**
 * What is the matter with a cell that should be a number, as a sentence part after the value; null where nothing better than
 * "is not a number" can be said. Only words: no value is ever made of such a cell.
 * @example numberHint("~45") // "is only approximate: write 45 if ..."
 */
export function numberHint(cell: string): string | null {
  const short = cell.slice(0, 60);
  return HINTS.find(([pattern]) => pattern.test(short))?.[1](short) ?? null;
}
