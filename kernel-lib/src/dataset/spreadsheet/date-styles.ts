import { xmlAttribute, xmlElements, xmlPrefix, xmlText } from "./xml-elements";

/** Number formats of ISO/IEC 29500 part 1, 18.8.30, that show a number as a date or time. */
const BUILT_IN_DATES: ReadonlySet<string> = new Set([
  "14",
  "15",
  "16",
  "17",
  "18",
  "19",
  "20",
  "21",
  "22",
  "45",
  "46",
  "47",
]);

/** Styles of cells (by the place that a cell names) whose number is shown as a date. */
export function dateStyles(styles: string): ReadonlySet<string> {
  const prefix = xmlPrefix(styles, "styleSheet");
  const own = new Set(
    [...xmlElements(styles, `${prefix}numFmt`)].flatMap(({ attributes }) =>
      isDateFormat(xmlText(xmlAttribute(attributes, "formatCode") ?? ""))
        ? [xmlAttribute(attributes, "numFmtId") ?? ""]
        : [],
    ),
  );
  const [formats] = xmlElements(styles, `${prefix}cellXfs`);
  const found = new Set<string>();
  [...xmlElements(formats?.content ?? "", `${prefix}xf`)].forEach(({ attributes }, k) => {
    const id = xmlAttribute(attributes, "numFmtId") ?? "0";
    if (BUILT_IN_DATES.has(id) || own.has(id)) found.add(String(k));
  });
  return found;
}

/** A format with day, month or year outside quotation marks and brackets. */
function isDateFormat(code: string): boolean {
  return /[dmy]/i.test(code.slice(0, 200).replace(/"[^"]*"|\[[^\]]*\]|\\./g, ""));
}

/** A count of days since the end of 1899 as a date, 2026-12-10; as stored where it is none. */
export function dateText(stored: string): string {
  const days = Number(stored);
  if (stored === "" || !(days >= 1 && days < 2958466)) return stored;
  return new Date(Date.UTC(1899, 11, 30) + Math.floor(days) * 86_400_000)
    .toISOString()
    .slice(0, 10);
}
