/** Decimal sign of a file. */
export type DecimalSign = "." | ",";

// U+2212 is the minus sign of typeset text and of some spreadsheets; a dash is none.
const WITH_POINT = /^[+\-\u2212]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?$/;
const WITH_COMMA = /^[+\-\u2212]?(?:\d+,?\d*|,\d+)(?:[eE][+-]?\d{1,3})?$/;

/**
 * Words that laboratories write for "no value". They are read as missing, and counted in the
 * report.
 */
const MISSING_WORDS: ReadonlySet<string> = new Set([
  "na",
  "n/a",
  "n.a.",
  "nan",
  "null",
  "none",
  "-",
  "–",
  "—",
  "#n/a",
]);

/** Whether a cell stands for a missing value without being blank. */
export function isMissingWord(cell: string): boolean {
  return cell.length <= 5 && MISSING_WORDS.has(cell.toLowerCase());
}

/**
 * The number in a cell, or null when the cell is not wholly one number with that decimal sign.
 * Nothing is guessed: thousands separators, units behind the number, "1e999" and hexadecimal are
 * refused.
 */
export function readNumber(cell: string, decimal: DecimalSign): number | null {
  if (decimal === "." ? !WITH_POINT.test(cell) : !WITH_COMMA.test(cell)) return null;
  const plain = cell.charCodeAt(0) === 0x2212 ? `-${cell.slice(1)}` : cell;
  const value = Number(decimal === "." ? plain : plain.replace(",", "."));
  return Number.isFinite(value) ? value : null;
}

/** One to three digits, a sign, three digits: a number, or a thousand with its separator. */
const LIKE_THOUSANDS = /^[+\-\u2212]?[1-9]\d{0,2}[.,]\d{3}$/;

/**
 * The decimal sign of a sample of cells from number columns: comma only when cells use it and none
 * uses a point, unless every point stands where a thousands separator would; and not where every
 * comma does. There 1,234 may be a thousand or one and a bit: it is then no number, and its row is
 * rejected.
 * @param doubtThousands false where nobody writes thousands separators, as in a logger's file
 */
export function detectDecimal(
  cells: Iterable<string>,
  doubtThousands: boolean = true,
): DecimalSign {
  let points = 0;
  let commas = 0;
  for (const cell of cells) {
    const doubtful = LIKE_THOUSANDS.test(cell);
    if (
      cell.includes(".") &&
      !doubtful &&
      (WITH_POINT.test(cell) || /^\d{1,3}(,\d{3})+\.\d+$/.test(cell))
    )
      points += 1;
    if (
      cell.includes(",") &&
      !(doubtThousands && doubtful) &&
      (WITH_COMMA.test(cell) || /^\d{1,3}(\.\d{3})+,\d+$/.test(cell))
    )
      commas += 1;
  }
  return points === 0 && commas > 0 ? "," : ".";
}

/**
 * Whether every number with a point could be one with a thousands separator, and one at least is
 * there.
 */
export function pointsMayBeThousands(cells: Iterable<string>): boolean {
  let some = false;
  for (const cell of cells) {
    if (!cell.includes(".") || !WITH_POINT.test(cell)) continue;
    if (!LIKE_THOUSANDS.test(cell)) return false;
    some = true;
  }
  return some;
}
