/** What a file is by its first bytes, and how to make of it one that can be read. */
export interface FileKind {
  readonly what: string;
  readonly advice: string;
}

const KINDS: ReadonlyArray<readonly [RegExp, string, string]> = [
  [
    /^%PDF-/,
    "a PDF document",
    "copy its table into a spreadsheet or a text with separators, and compare it with the printed page",
  ],
  [
    /^PK\u0003\u0004/,
    "a zip archive or spreadsheet",
    "name a spreadsheet of the format .xlsx tests.xlsx; of any other save the sheet as .xlsx or .csv",
  ],
  [
    /^\u00d0\u00cf\u0011\u00e0/,
    "a spreadsheet or document of the old binary format",
    "save it as .xlsx or .csv",
  ],
  [
    /^\u0089PNG|^\u00ff\u00d8\u00ff|^GIF8|^II\*\0|^MM\0\*/,
    "a picture",
    "type its numbers into a table",
  ],
  [/^\s*<(!doctype|html|\?xml|table)/i, "a web page or XML", "save the table as .csv or .xlsx"],
  [/^\{\\rtf/, "a formatted text", "save the table as .csv or .xlsx"],
  [/^\u001f\u008b|^7z\u00bc\u00af|^Rar!/, "a packed archive", "unpack it first"],
  [
    /^\u00ff\u00fe\0\0|^\0\0\u00fe\u00ff|^[\t\n\r -~]\0\0\0|^\0\0\0[\t\n\r -~]/,
    "a text in UTF-32",
    "save it as UTF-8",
  ],
];

/**
 * The kind of a file that is no text with separators, by its first bytes; null where they say
 * nothing.
 */
export function fileKind(first: Uint8Array): FileKind | null {
  const start = String.fromCharCode(...first.subarray(0, 64));
  const found = KINDS.find(([pattern]) => pattern.test(start));
  return found === undefined ? null : { what: found[1], advice: found[2] };
}

/**
 * UTF-16 without a byte order mark: in text of Western letters every second byte is zero, and no
 * other. Null where that is not so.
 */
export function unmarkedUtf16(first: Uint8Array): "utf-16le" | "utf-16be" | null {
  const pairs = Math.floor(first.length / 2);
  if (pairs < 4) return null;
  const zeros = (offset: 0 | 1): number =>
    Array.from({ length: pairs }, (_, i) => first[2 * i + offset]).filter((byte) => byte === 0)
      .length;
  if (zeros(0) === 0 && zeros(1) === pairs) return "utf-16le";
  return zeros(1) === 0 && zeros(0) === pairs ? "utf-16be" : null;
}
