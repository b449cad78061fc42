import { diagnostic, shortened, type Diagnostic } from "./diagnostics";
import type { CurveValues } from "./reading/curve-values";
import type { Study } from "./schema/study";
import type { TestTable } from "./table/test-table";

/**
 * Studies without a line in studies.csv; their rows are used, but nobody can say where they come
 * from.
 */
export function unknownStudies(
  tests: TestTable,
  studies: ReadonlyArray<Study>,
  name: string,
): Diagnostic[] {
  const found: Diagnostic[] = [];
  if (studies.length === 0) return found;
  const known = new Set(studies.map(({ study_id }) => study_id));
  const reported = new Set<string>();
  for (const [i, study] of tests.texts("study_id").entries()) {
    if (study === null || known.has(study) || reported.has(study)) continue;
    reported.add(study);
    const source = tests.source(i);
    found.push(
      diagnostic(
        "warning",
        "unknown-study",
        `${name}: the study "${shortened(study)}" has no line in studies.csv, expected one`,
        {
          file: source?.file ?? `${name}/tests.csv`,
          row: source?.row ?? null,
          column: "study_id",
          value: study,
          expected: "a line in studies.csv",
        },
      ),
    );
  }
  return found;
}

/** Reduced values of tests that the data set does not have. */
export function unknownTests(
  { values }: CurveValues,
  tests: TestTable,
  file: string,
): Diagnostic[] {
  const known = new Set(tests.texts("test_id"));
  return [...values.keys()]
    .filter((id) => !known.has(id))
    .map((id) =>
      diagnostic(
        "warning",
        "values-of-no-test",
        `${file}: there is no test "${shortened(id)}", expected the name of a test; its values are left out`,
        { file, column: "test_id", value: id, expected: "a test of the data set" },
      ),
    );
}
