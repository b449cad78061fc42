import { diagnostic, type Diagnostic } from "../diagnostics";
import { unnamedGrips } from "./grip-rules";
import { TEST_COLUMNS } from "../schema/test-columns";
import type { TestTable } from "../table/test-table";
import { suspicionRules } from "./suspicion-rules";
import { commentedOut } from "./marked-rows";
import { unstatedBases } from "./unstated-bases";

/**
 * Warnings for implausible values, each with its rule. A rule whose numbers are
 * missing says nothing. The limits are wide on purpose (common practice, no source): they catch
 * slips of unit and column, not rare tests.
 */
export function suspiciousValues(tests: TestTable): Diagnostic[] {
  const found: Diagnostic[] = [];
  const reasons = tests.texts("excluded");
  const names = [
    ...TEST_COLUMNS.filter(({ kind }) => kind === "number" || kind === "integer").map(
      ({ name }) => name,
    ),
    ...tests.extraColumns.filter(({ kind }) => kind === "number").map(({ name }) => name),
  ];
  const numbers = new Map(names.map((name) => [name, tests.numbers(name)]));
  const words = new Map(
    ["action", "setup", "bar_material", "bar_size", "failure_mode"].map((name) => [
      name,
      tests.texts(name),
    ]),
  );
  // Bound once: these two run some twenty times a row.
  const rules = suspicionRules();
  let i = 0;
  const value = (column: string): number => numbers.get(column)?.[i] ?? NaN;
  const text = (column: string): string | null => words.get(column)?.[i] ?? null;
  for (; i < tests.length; i += 1) {
    // A row that is excluded already has its reason.
    if ((reasons[i] ?? null) !== null) continue;
    for (const rule of rules) {
      const finding = rule.finding(value, text);
      if (finding === null) continue;
      const source = tests.source(i);
      const place = {
        file: source?.file ?? "",
        row: source?.row ?? null,
        column: rule.column,
        expected: rule.expected,
      };
      const cell = value(rule.column);
      found.push(
        diagnostic(
          "warning",
          rule.name,
          `${source === null ? "" : `${source.file} row ${String(source.row)}: `}${tests.text(i, "test_id") ?? ""}: ${finding}`,
          {
            ...place,
            value: words.has(rule.column)
              ? text(rule.column)
              : Number.isNaN(cell)
                ? null
                : String(cell),
          },
        ),
      );
    }
  }
  return [...found, ...commentedOut(tests), ...unstatedBases(tests), ...unnamedGrips(tests)];
}
