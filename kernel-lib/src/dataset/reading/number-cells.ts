/** Decimal sign of a file. */
export type DecimalSign = "." | ",";

const WITH_POINT = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?$/;
const WITH_COMMA = /^[+-]?(?:\d+,?\d*|,\d+)(?:[eE][+-]?\d{1,3})?$/;

/** Words that laboratories write for "no value". They are read as missing, and counted in the report. */
const MISSING_WORDS: ReadonlySet<string> = new Set(["na", "n/a", "n.a.", "nan", "null", "none", "-", "–", "—", "#n/a"]);

/** Whether a cell stands for a missing value without being blank. */
export function isMissingWord(cell: string): boolean {
  return cell.length <= 5 && MISSING_WORDS.has(cell.toLowerCase());
}

/**
 * The number in a cell, or null when the cell is not wholly one number with that decimal sign.
 * Nothing is guessed: thousands separators, units behind the number, "1e999" and hexadecimal are refused.
 */
export function readNumber(cell: string, decimal: DecimalSign): number | null {
  if (decimal === "." ? !WITH_POINT.test(cell) : !WITH_COMMA.test(cell)) return null;
  const value = Number(decimal === "." ? cell : cell.replace(",", "."));
  return Number.isFinite(value) ? value : null;
}

/**
 * The decimal sign of a sample of cells from number columns: comma only when cells use it, none uses a point, and not every comma
 * stands before exactly three digits. There 1,234 may be a thousand or one and a bit: it is then no number, and its row is set aside.
 * @param doubtThousands false where nobody writes thousands separators, as in a logger's file
 */
export function detectDecimal(cells: Iterable<string>, doubtThousands: boolean = true): DecimalSign {
  let points = 0;
  let commas = 0;
  let likeThousands = 0;
  for (const cell of cells) {
    if (cell.includes(".") && WITH_POINT.test(cell)) points += 1;
    if (cell.includes(",") && WITH_COMMA.test(cell)) {
      commas += 1;
      if (/^[+-]?[1-9]\d{0,2},\d{3}$/.test(cell)) likeThousands += 1;
    }
  }
  return points === 0 && commas > (doubtThousands ? likeThousands : 0) ? "," : ".";
}
