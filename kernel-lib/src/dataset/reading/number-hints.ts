import { readNumber, type DecimalSign } from "./number-cells";

const MONTH = "(jan|feb|mar|mär|apr|may|mai|jun|jul|aug|sep|oct|okt|nov|dec|dez)[a-z]*";
const NUMBER = "[+-]?\\d+([.,]\\d+)?";
const UNITS =
  'kN|N|MN|lbf?|lbs|pounds?|kips?|kgf?|tf?|ton(ne)?s?|mm[2²]?|cm[2²]?|m|µm|in(\\.|ch(es)?)?|ft|MPa|GPa|N\\/mm(2|²|\\^2)|psi|ksi|"|″';
const SPACES = " '’\\u00a0\\u2007-\\u200a\\u202f";
const FRACTIONS: Readonly<Record<string, number>> = {
  "½": 0.5,
  "¼": 0.25,
  "¾": 0.75,
  "⅛": 0.125,
  "⅜": 0.375,
  "⅝": 0.625,
  "⅞": 0.875,
};

const date = (): string =>
  "looks like a date that a spreadsheet made of a size or range: format the column as text and type it again";
const pattern = (source: string): RegExp => new RegExp(source, "iu");

/**
 * A cell that is nearly a number, and what its writer should do about it. The first pattern that
 * fits speaks.
 */
const HINTS: ReadonlyArray<readonly [RegExp, (cell: string) => string]> = [
  [
    /^#(REF|DIV\/0|VALUE|NAME|NUM|NULL|SPILL|CALC)[!?]?/i,
    () => "is a spreadsheet's own error: mend its formula",
  ],
  [
    /[\u00ad\u200b-\u200f\u2060-\u2064\ufeff]/,
    () => "holds a character that cannot be seen: type it again",
  ],
  [
    /[\u0660-\u0669\u06f0-\u06f9\u0966-\u096f\uff10-\uff19]/,
    (cell) => `has digits of another script: write ${westernDigits(cell)}`,
  ],
  [/^['`´]/, (cell) => `has an apostrophe before it: write ${digits(cell)}`],
  [
    /^[\u2010-\u2015]\s*\d/,
    (cell) => `begins with a dash: write the minus sign, -${digits(cell)}, if it is negative`,
  ],
  [
    /^[>≥]=?\s*[\d.,]/,
    (cell) =>
      `is a lower bound. Enter ${digits(cell)} and set failure_mode to what ended the test, e.g. stopped`,
  ],
  [
    /^[<≤]=?\s*[\d.,]/,
    () => "is a bound from above, not a value: leave it blank and say so in remarks",
  ],
  [
    /^(~|≈|ca\.?\s|circa\s|about\s|approx\.?\s)/i,
    (cell) =>
      `is only approximate: write ${digits(cell)} if it may count as the value, and say so in remarks`,
  ],
  [
    /^[\d.,\s]+(±|\+\/-|\+-)/,
    (cell) =>
      `holds two numbers: write ${digits(cell)}, and what stands behind it into a column of its own (load_sd_kN where it is the standard deviation of replicates)`,
  ],
  [pattern(`^\\d{1,2}[-./ ]?${MONTH}([-./ ]?\\d{2,4})?$`), date],
  [pattern(`^${MONTH}[-./ ]\\d{1,4}$`), date],
  [/^\d{4}[-/.]\d{1,2}[-/.]\d{1,2}|^\d{1,2}([-/.])\d{1,2}\1(\d{4}|\d{2})\b/, date],
  [
    /^#\s*\d{1,2}$|^no\.?\s*\d{1,2}$/i,
    () => "is the name of a bar: write it into bar_size, and here the number",
  ],
  [/^[ØøφΦ⌀]\s*\d/, () => "has a diameter sign before it: write the number alone"],
  [
    /^(\d+\s+)?\d+\/\d+\s*("|″|in\.?)?$|^\d*\s*[½¼¾⅛⅜⅝⅞]/,
    (cell) => `is a fraction: write it as a decimal number${asDecimal(cell)}`,
  ],
  [
    /[%‰]\s*$/,
    (cell) =>
      `is a percentage: write ${digits(cell)} if the column is in percent, else the share (85 % is 0.85)`,
  ],
  [
    /^[+-]?\d+([.,]\d+)?\s*[x×*·]\s*10(\^|[⁰¹²³⁴-⁹⁻]|e|\*\*)/i,
    () => "is written with a power of ten: write it like 1.2e3",
  ],
  [/^\d+·\d+$/, (cell) => `has a raised point: write ${cell.replace("·", ".")}`],
  [
    pattern(`^\\d{1,3}([${SPACES}]\\d{3})+([.,]\\d+)?$`),
    (cell) =>
      `has a thousands separator: write ${cell.replace(new RegExp(`[${SPACES}]`, "gu"), "")}`,
  ],
  [
    /^\d{1,3},\d{3}$/,
    (cell) =>
      `may be ${cell.replace(",", "")} with a thousands separator or ${cell.replace(",", ".")} with a decimal comma: write which`,
  ],
  [
    /^\d{1,3}\.\d{3}$/,
    (cell) =>
      `may be ${cell.replace(".", "")} with a thousands separator or ${cell.replace(".", ",")} with a decimal point, where the file has decimal commas: write which`,
  ],
  [
    /^\d{1,3}(,\d{2,3})*,\d{3}\.\d+$|^\d{1,3}(,\d{2,3})+,\d{3}$/,
    (cell) => `has a thousands separator: write ${cell.replaceAll(",", "")}`,
  ],
  [
    /^\d{1,3}(\.\d{3})+,\d+$|^\d{1,3}(\.\d{3}){2,}$/,
    (cell) => `has a thousands separator: write ${cell.replaceAll(".", "")}`,
  ],
  [
    /^\d+([.,]\d+)?\s*[-–—]\s*\d+([.,]\d+)?$/,
    () => "is a range, not a value: write one row for each test, or leave it blank",
  ],
  [
    /^[+-]?\d+([.,]\d+)?\s*[*†‡§¹²³]+$|^[+-]?\d+([.,]\d+)?\s*\([a-z0-9]{1,2}\)$/i,
    (cell) => `has a footnote's mark behind it: write ${digits(cell)}, and the note into remarks`,
  ],
  [
    pattern(`^${NUMBER}\\s*(${UNITS})$`),
    () => "has its unit behind it: the unit belongs into the column's name, the number alone here",
  ],
  [
    /^\d+([.,]\d+)?\s*[x×*·]?\s*(d|d_?b|ø|φ)$/i,
    () => "is a multiple of the bar's diameter: write the length",
  ],
  [
    /^(C|LC|B|M)\s?\d{2,3}(\s?\/\s?\d{2,3})?$/i,
    () => "is a strength class: write the strength that was measured",
  ],
  [
    /^(?=.*\d)(?=.*[OoIl])[\dOoIl.,]+$/,
    (cell) =>
      `has a letter among its digits: is it ${cell.replace(/o/gi, "0").replace(/[Il]/g, "1")}?`,
  ],
  [
    /^(?=.*\p{L})[^\d]*\d+([.,]\d+)?[^\d]*$/u,
    (cell) =>
      `has words beside the number: write ${digits(cell)} alone, and the words into the column they belong to, or into remarks`,
  ],
];

function digits(cell: string): string {
  return /\d+([.,]\d+)?/.exec(cell)?.[0] ?? "the number";
}

function westernDigits(cell: string): string {
  return cell.replace(/[\u0660-\u0669\u06f0-\u06f9\u0966-\u096f\uff10-\uff19]/g, (digit) =>
    String(
      digit.charCodeAt(0) >= 0xff10
        ? digit.charCodeAt(0) - 0xff10
        : digit.charCodeAt(0) -
            (digit.charCodeAt(0) >= 0x966 ? 0x966 : digit.charCodeAt(0) >= 0x6f0 ? 0x6f0 : 0x660),
    ),
  );
}

/** The value of a fraction, so that nobody need look it up. */
function asDecimal(cell: string): string {
  const [, whole = "0", sign = "", over = "", under = ""] =
    /^(\d+)??\s*(?:([½¼¾⅛⅜⅝⅞])|(\d+)\/(\d+))/.exec(cell.replace(/^(\d+)\s+(?=\d+\/)/, "$1 ")) ?? [];
  const value = Number(whole) + (FRACTIONS[sign] ?? Number(over) / Number(under));
  return Number.isFinite(value) ? `, ${String(Number(value.toPrecision(6)))}` : "";
}

/**
 * What is the matter with a cell that should be a number, as a sentence part after the value; null
 * where nothing better than "is not a number" can be said. Only words: no value is ever made of
 * such a cell.
 * @example numberHint("~45") // "is only approximate: write 45 if ..."
 */
export function numberHint(cell: string): string | null {
  const short = cell.slice(0, 60);
  return HINTS.find(([test]) => test.test(short))?.[1](short) ?? null;
}

/** What to say of a number with the other decimal sign than the file's; null for any other cell. */
export function otherSign(cell: string, decimal: DecimalSign): string | null {
  const [other, here, there] =
    decimal === "," ? ([".", "point", "commas"] as const) : ([",", "comma", "points"] as const);
  return readNumber(cell, other) === null
    ? null
    : `has a decimal ${here} where the file has decimal ${there}: write ${cell.replace(other, decimal)}`;
}
