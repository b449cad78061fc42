import { valueWords } from "../comparison";
import type { TableColumn } from "./column";

/** A column for each variable that the groups are made by. */
export function byColumns(by: Readonly<Record<string, unknown>>): TableColumn[] {
  return Object.keys(by).map((key) => ({
    key,
    title: key.replaceAll("_", " "),
    kind: "text" as const,
  }));
}

/** The cells of those columns, in words. */
export function byCells(
  by: Readonly<Record<string, string | number | null>>,
): Record<string, string> {
  return Object.fromEntries(Object.entries(by).map(([key, value]) => [key, valueWords(value)]));
}
