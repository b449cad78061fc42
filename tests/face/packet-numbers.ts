/** Texts and numbers of a written packet, for the test that no two of them disagree. */

/** Every number in JSON, also those within its texts, and how often a list is long. */
export function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  if (typeof value === "string") return tokensOf(value).map(({ value: number }) => number);
  if (Array.isArray(value)) return [value.length, ...value.flatMap(numbersIn)];
  if (typeof value === "object" && value !== null) return Object.values(value).flatMap(numbersIn);
  return [];
}

export interface Token {
  readonly text: string;
  readonly value: number;
  /** Half a unit of the last digit shown. */
  readonly half: number;
  readonly around: string;
}

/** What is a name and not a number: clauses, editions, tests, sizes of sheets, hashes. */
const NAMES: readonly RegExp[] = [
  /\b[0-9a-f]{16,}\b/g,
  /\b(?:EN|ACI|AISI|CSA|fib|TR|ASCE|CODE)[ -][A-Z]*\d[\dA-Z.-]*/g,
  /\b\d+(?:\.\d+){2,}[a-z]?\b/g,
  /\b(?:17|25)\.\d+\b/g,
  /\b[A-Za-z]+(?:-[A-Za-z0-9]+)*-\d+(?:-\d+)*\b/g,
  /\b(?:Table|Figure|Sheet|sheet|block|section|notebook|Chapter|chapter) \d+(?: of \d+)?/g,
  /\b10\.\d{4,}\/\S+/g,
  /\b[A-Za-z_]+\d+\b/g,
  /\(\d{4}\)/g,
  /\b1\.[246][DL]\b/g,
];

/** The numbers of a text, names left out. */
export function tokensOf(text: string): Token[] {
  const bare = NAMES.reduce((rest, name) => rest.replace(name, " "), text);
  return [...bare.matchAll(/(?<![\w.])\d{1,3}(?:,\d{3})+(?![\d.]\d)|(?<![\w.])\d+(?:\.\d+)?/g)].map(
    ({ 0: shown, index }) => {
      const plain = shown.replaceAll(",", "");
      const decimals = /\.(\d+)$/.exec(plain)?.[1]!.length;
      const zeros = decimals === undefined ? /0*$/.exec(plain)![0].length : 0;
      const last = decimals === undefined ? (plain.length > 3 ? zeros : 0) : -decimals;
      return {
        text: shown,
        value: Number(plain),
        half: 0.5 * 10 ** last,
        around: bare.slice(Math.max(0, index - 50), index + 40),
      };
    },
  );
}

/** The text of a page, without style, drawings and symbols of formulas. */
export function textOf(html: string): string {
  const entities: Readonly<Record<string, string>> = {
    amp: "&",
    lt: "<",
    gt: ">",
    quot: '"',
    nbsp: " ",
  };
  return html
    .replace(/<(style|svg|math|sub|head)\b[\s\S]*?<\/\1>/g, " ")
    .replace(/<[^>]+>/g, " ")
    .replace(/&(\w+);/g, (whole, name: string) => entities[name] ?? whole)
    .replace(/\s+/g, " ");
}

/** Whether a number is a rounding of one of these, as it is, in percent, or as the share left. */
export function roundingOf(all: readonly number[]): (token: Token) => boolean {
  const sorted = [...new Set(all.flatMap((one) => [one, 100 * one, 100 * (1 - one)]))]
    .map(Math.abs)
    .sort((a, b) => a - b);
  return ({ value, half }) => {
    const slack = half * (1 + 1e-9) + 1e-12;
    let [low, high] = [0, sorted.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (sorted[middle]! < value - slack) low = middle + 1;
      else high = middle;
    }
    return low < sorted.length && sorted[low]! <= value + slack;
  };
}

/** Rows of a file of comma-separated values without line breaks in cells. */
export function csvRows(text: string): Record<string, string>[] {
  const cells = (line: string): string[] =>
    [...line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)].map(
      ([, quoted, bare]) => quoted?.replaceAll('""', '"') ?? bare ?? "",
    );
  const [head = "", ...lines] = text
    .replace(/^\ufeff/, "")
    .trimEnd()
    .split(/\r?\n/);
  const keys = cells(head);
  return lines.map((line) => {
    const values = cells(line);
    return Object.fromEntries(keys.map((key, k) => [key, values[k] ?? ""]));
  });
}
