import type { DifferenceList } from "./difference";
import { compareText } from "./compare-text";
import { sizeOf } from "./difference";

/**
 * Compares two values of JSON: numbers within tolerance, texts as texts, lists and objects part by
 * part. `size` is the largest absolute value of the list that a number stands in.
 */
export function compareValues(
  where: string,
  recorded: unknown,
  rerun: unknown,
  list: DifferenceList,
  size = 0,
): void {
  if (typeof recorded === "number" && typeof rerun === "number") {
    list.number(where, recorded, rerun, size);
  } else if (typeof recorded === "string" && typeof rerun === "string") {
    compareText(where, recorded, rerun, list);
  } else if (Array.isArray(recorded) && Array.isArray(rerun)) {
    if (recorded.length !== rerun.length)
      list.other(where, `${recorded.length} items`, `${rerun.length} items`);
    else {
      const column = Math.max(sizeOf(recorded), sizeOf(rerun));
      recorded.forEach((item, index) =>
        compareValues(`${where}[${index + 1}]`, item, rerun[index], list, column),
      );
    }
  } else if (isRecord(recorded) && isRecord(rerun)) {
    for (const key of new Set([...Object.keys(recorded), ...Object.keys(rerun)])) {
      compareValues(where === "" ? key : `${where}.${key}`, recorded[key], rerun[key], list);
    }
  } else if (recorded !== rerun) {
    list.other(where, shortJson(recorded), shortJson(rerun));
  }
}

/** True for a plain JSON object, not for an array or null. */
export function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** A value in JSON, cut to a readable length. */
export function shortJson(value: unknown): string {
  if (value === undefined) return "(absent)";
  const text = JSON.stringify(value);
  return text.length > 120 ? `${text.slice(0, 119)}…` : text;
}
