import type { LeftOutUnit } from "../../proposals";
import { knownName } from "../results/names";

/** What is left out in turn: a column of the tests. */
export type LeftOut = "series_id" | "study_id" | "laboratory" | "bar_size";

const UNITS: Readonly<Record<LeftOut, LeftOutUnit>> = {
  series_id: "series",
  study_id: "study",
  laboratory: "laboratory",
  bar_size: "bar size",
};

/** The columns that can be left out. */
export const LEFT_OUT_COLUMNS = Object.keys(UNITS) as readonly LeftOut[];

/** The unit of a column. @throws UnknownNameError naming the nearest column */
export function unitOf(column: LeftOut): LeftOutUnit {
  return UNITS[knownName("column to leave out", column, LEFT_OUT_COLUMNS)];
}
