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

/** The unit of a column. @throws UnknownNameError naming the nearest column */
export function unitOf(column: LeftOut): LeftOutUnit {
  return UNITS[knownName("column to leave out", column, Object.keys(UNITS) as LeftOut[])];
}
