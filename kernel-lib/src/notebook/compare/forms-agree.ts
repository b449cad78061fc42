import type { MimeBundle } from "../format";
import { FIGURE_TYPE } from "./compare-figures";
import { TABLE_TYPE } from "./compare-tables";
import { withoutTags } from "./compare-written";
import { isRecord } from "./compare-values";
import { textOf, withoutPictures } from "./pictures";

/** What the forms of one output say against each other. */
export interface FormContradiction {
  readonly where: string;
  readonly one: string;
  readonly other: string;
}

const WRITTEN = ["text/html", "text/markdown", "text/plain"] as const;
const NUMBER = /(?<![\w.])[-+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?(?![\w])/g;

/**
 * Whether the forms of one output say the same: a front end shows one of them, a reviewer may see
 * another. The written forms must hold the same numbers, and each number of an HTML table must be
 * the rounding of the number that the data hold for its row and column.
 */
export function contradictionsIn(where: string, data: MimeBundle): FormContradiction[] {
  return [...writtenAgainstWritten(where, data), ...writtenAgainstTable(where, data)];
}

/** Whether an output says as data what it shows, so that a contradiction is a fault of it. */
export function holdsData(data: MimeBundle): boolean {
  return TABLE_TYPE in data || FIGURE_TYPE in data;
}

function writtenAgainstWritten(where: string, data: MimeBundle): FormContradiction[] {
  const [first, ...others] = WRITTEN.filter((type) => type in data);
  if (first === undefined) return [];
  // How often a number stands is no matter: a wide table comes in pieces, a formula in elements.
  const numbers = (type: string): Set<string> => new Set(numbersIn(type, textOf(data[type])));
  return others.flatMap((type) => {
    const [own, its] = [numbers(first), numbers(type)];
    const more = [...own].filter((one) => !its.has(one));
    const fewer = [...its].filter((one) => !own.has(one));
    return more.length === 0 && fewer.length === 0
      ? []
      : [
          {
            where: `${where}, numbers of ${first} and ${type}`,
            one: more.slice(0, 5).join(", ") || "(none more)",
            other: fewer.slice(0, 5).join(", ") || "(none more)",
          },
        ];
  });
}

function numbersIn(type: string, text: string): string[] {
  const shown =
    type === "text/html"
      ? withoutTags(
          withoutPictures(text)
            .replace(/<img\b[^<>]*?\balt="([^"<>]*)"[^<>]*>/g, " $1 ")
            .replace(/<(?:sub|sup|bdi)>|<\/(?:sub|sup|bdi)>/g, ""),
        ).replace(/&[#\w]+;/g, " ")
      : text;
  return (shown.replace(/\u2212/g, "-").match(NUMBER) ?? []).map((one) => one.replace(/^\+/, ""));
}

const ROW = /<tr\b[^<>]*\bdata-row-key=[^<>]*>([\s\S]*?)<\/tr>/g;
const CELL = /<(t[dh])\b[^<>]*\bdata-column="([^"]*)"[^<>]*>([\s\S]*?)<\/\1>/g;

function writtenAgainstTable(where: string, data: MimeBundle): FormContradiction[] {
  const table = data[TABLE_TYPE];
  if (!isRecord(table) || !Array.isArray(table["rows"]) || !("text/html" in data)) return [];
  const rows = [...textOf(data["text/html"]).matchAll(ROW)];
  const place = `${where}, text/html and data`;
  if (rows.length === 0) return [];
  const count = table["rows"].length;
  // A wide table comes in pieces below each other, each with all rows.
  if (count === 0 || rows.length % count !== 0)
    return [{ where: `${place}, rows`, one: String(rows.length), other: String(count) }];
  return rows.flatMap(([, row = ""], index) =>
    [...row.matchAll(CELL)].flatMap(([, , name = "", inner = ""]) => {
      const value: unknown = (table["rows"] as unknown[])[index % count];
      const exact = isRecord(value) ? value[name] : undefined;
      const text = withoutTags(inner)
        .replace(/[\u2212]/g, "-")
        .replace(/[\s\u2009,](?=\d{3}\b)/g, "");
      if (typeof exact !== "number" || mayBeWritten(exact, text)) return [];
      return [
        {
          where: `${place}, row ${(index % count) + 1}, column ${name}`,
          one: text,
          other: String(exact),
        },
      ];
    }),
  );
}

/**
 * Whether a text starts with the number, or with its percentage, rounded to the text's digits; or
 * says that it is below or above a bound that it keeps.
 */
function mayBeWritten(exact: number, text: string): boolean {
  const plain = text.replace(
    / ?\u00d7 ?10([\u207b\u2070\u00b9\u00b2\u00b3\u2074-\u2079]+)/,
    powerOfTen,
  );
  const [written] = /[-+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?/.exec(plain) ?? [];
  // A word or a dash in place of a number: nothing is said of its size.
  if (written === undefined) return true;
  if (/^(?:below|<)/.test(plain)) return exact < Number(written);
  if (/^(?:above|>)/.test(plain)) return exact > Number(written);
  const decimals = /\.(\d+)/.exec(written)?.[1]?.length ?? 0;
  const exponent = Number(/[eE]([-+]?\d+)$/.exec(written)?.[1] ?? 0);
  const half = 0.5000001 * 10 ** (exponent - decimals);
  return [exact, 100 * exact].some(
    (value) => Math.abs(value - Number(written)) <= half + 1e-12 * Math.abs(value),
  );
}

const RAISED = "\u2070\u00b9\u00b2\u00b3\u2074\u2075\u2076\u2077\u2078\u2079";

/** " × 10⁻⁵" as "e-5". */
function powerOfTen(_whole: string, exponent: string): string {
  const digits = [...exponent].map((one) => (one === "\u207b" ? "-" : RAISED.indexOf(one)));
  return `e${digits.join("")}`;
}
