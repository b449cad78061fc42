import { diagnostic, shortened, type Diagnostic } from "./diagnostics";
import type { RowSetAside } from "./reading/row-set-aside";
import type { TestTable } from "./table/test-table";

/**
 * Rejects rows from `from` on whose test_id an earlier row of another file has. Within a file
 * the reader has seen to it.
 */
export function withoutRepeats(
  tests: TestTable,
  from: number,
): { kept: TestTable; findings: Diagnostic[]; rejected: RowSetAside[] } {
  const findings: Diagnostic[] = [];
  const rejected: RowSetAside[] = [];
  // Of one file nothing is left to look for, and a large one would cost a list of all its names.
  const only = tests.length === 0 ? undefined : tests.source(0)?.file;
  if (from === 0 && only !== undefined && isSole(tests, only))
    return { kept: tests, findings, rejected };
  const kept: number[] = [];
  const first = new Map<string, number>();
  for (const [i, id] of tests.texts("test_id").entries()) {
    const earlier = id === null ? undefined : first.get(id);
    if (id === null || earlier === undefined || i < from) {
      if (id !== null && earlier === undefined) first.set(id, i);
      kept.push(i);
      continue;
    }
    const [here, there] = [tests.source(i), tests.source(earlier)];
    const where = `${there?.file ?? ""} row ${String(there?.row ?? "")}`;
    findings.push(
      diagnostic(
        "error",
        "duplicate-id",
        `${here?.file ?? ""} row ${String(here?.row ?? "")}: test_id "${shortened(id)}" is already in ${where}, expected a name used once`,
        {
          file: here?.file ?? "",
          row: here?.row ?? null,
          column: "test_id",
          value: id,
          expected: "a name used once in all data read together",
        },
      ),
    );
    rejected.push({
      file: here?.file ?? "",
      row: here?.row ?? 0,
      cells: [id],
      reasons: [`test_id "${id}" is already in ${where}`],
    });
  }
  return { kept: kept.length === tests.length ? tests : tests.select(kept), findings, rejected };
}

function isSole(tests: TestTable, file: string): boolean {
  for (let i = 0; i < tests.length; i += 1) if (tests.source(i)?.file !== file) return false;
  return true;
}
