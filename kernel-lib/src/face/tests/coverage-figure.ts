import { valueWords } from "../../comparison";
import { coverage, type TestTable } from "../../dataset";
import { coverageMap } from "../../figures";
import type { FigureView } from "../results/result";

/** Numbers of tests by columns, such as material and size, against the observed failure mode. */
export function coverageBy(
  tests: TestTable,
  rows: readonly string[],
  rowTitle: string,
): FigureView["make"] {
  const words = (name: string): string => name.split(" · ").map(valueWords).join(", ");
  return (text) => {
    const found = coverage(tests, [...rows], ["failure_mode"]);
    return coverageMap({
      ...text,
      rows: found.rowNames.map(words),
      columns: found.columnNames.map(valueWords),
      counts: found.counts,
      rowTitle,
      columnTitle: "Observed failure mode",
    });
  };
}
