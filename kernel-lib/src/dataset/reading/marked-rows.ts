import { diagnostic, type Diagnostic } from "../diagnostics";
import type { TestTable } from "../table/test-table";

/** Rows whose name begins with #, as a row that was to be left out, where most names do not. */
export function commentedOut(tests: TestTable): Diagnostic[] {
  const marked = [...tests.texts("test_id").entries()].filter(
    ([, id]) => id?.startsWith("#") === true,
  );
  if (marked.length > tests.length / 2) return [];
  return marked.map(([i, id]) => {
    const source = tests.source(i);
    return diagnostic(
      "warning",
      "marked-row",
      `${source === null ? "" : `${source.file} row ${String(source.row)}: `}the name "${id ?? ""}" begins with #: if the row is to be left out, write the reason into excluded; it counts as a test like any other`,
      {
        file: source?.file ?? "",
        row: source?.row ?? null,
        column: "test_id",
        value: id,
        expected: "a reason in excluded, or a name without #",
      },
    );
  });
}
