import { missingnessByStudy, type TestTable } from "../dataset";
import { coverageMap } from "./coverage-map";
import type { Figure, FigureText } from "./figure";

/**
 * Where cells are blank: number of tests with a blank cell by column and study; columns that every
 * test fills are left out.
 * @example blankCellMap(data.tests, ["edge_1_mm"], { id: "blanks", title: "…", caption: "…" })
 */
export function blankCellMap(
  tests: TestTable,
  columns: readonly string[],
  text: FigureText,
): Figure {
  const studies = [...new Set(tests.texts("study_id").map((id) => id ?? "unknown"))];
  const found = missingnessByStudy(tests, columns).filter(({ missing }) => missing > 0);
  return coverageMap({
    ...text,
    rows: found.map(({ column }) => column),
    columns: studies,
    counts: found.map(({ blankIn }) =>
      studies.map((id) => blankIn.find(({ study_id }) => study_id === id)?.missing ?? 0),
    ),
    rowTitle: "Column with a blank cell",
    columnTitle: "Study",
  });
}
