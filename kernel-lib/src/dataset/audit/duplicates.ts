import { diagnostic, type Diagnostic } from "../diagnostics";
import { TEST_COLUMNS } from "../schema/test-columns";
import type { TestTable } from "../table/test-table";

/** Tests that agree in everything that tells specimens apart. */
export interface LikelyDuplicate {
  readonly test_ids: ReadonlyArray<string>;
  readonly study_ids: ReadonlyArray<string>;
}

/**
 * Tests that different studies seem to report of one and the same specimen: bar, concrete,
 * embedment, set-up and replicates agree, and the load to 4 digits.
 */
export function likelyDuplicates(tests: TestTable): LikelyDuplicate[] {
  const compared = [
    "bar_material",
    "bar_diameter_mm",
    "concrete_strength_MPa",
    "embedment_mm",
    "setup",
    "replicates",
  ];
  const studies = tests.texts("study_id");
  return agreeing(tests, compared, 4)
    .filter((rows) => new Set(rows.map((i) => studies[i] ?? "")).size > 1)
    .map((rows) => named(tests, rows));
}

/**
 * Rows of one study that agree in every column of the contract but the name and the remarks, the
 * load to the last digit. Two specimens can come out alike where loads are rounded; a row copied
 * twice looks the same.
 */
export function repeatedRows(tests: TestTable): LikelyDuplicate[] {
  const compared = TEST_COLUMNS.map(({ name }) => name).filter(
    (name) => !["test_id", "remarks", "excluded", "peak_load_kN"].includes(name),
  );
  return agreeing(
    tests,
    [
      ...compared,
      ...tests.extraColumns
        .map(({ name }) => name)
        .filter((name) => !["source_row", "curve"].includes(name)),
    ],
    17,
  ).map((rows) => named(tests, rows));
}

/**
 * Groups of two rows or more that agree in the load, to some digits, and in the columns named; in
 * order of first appearance.
 */
function agreeing(
  tests: TestTable,
  columns: ReadonlyArray<string>,
  loadDigits: number,
): number[][] {
  const loads = tests.numbers("peak_load_kN");
  const byLoad = new Map<string, number[]>();
  for (let i = 0; i < tests.length; i += 1) {
    const key = (loads[i] ?? NaN).toPrecision(loadDigits);
    const group = byLoad.get(key);
    if (group === undefined) byLoad.set(key, [i]);
    else group.push(i);
  }
  const numeric = new Set([
    ...TEST_COLUMNS.filter(({ kind }) => kind === "number" || kind === "integer").map(
      ({ name }) => name,
    ),
    ...tests.extraColumns.filter(({ kind }) => kind === "number").map(({ name }) => name),
  ]);
  // Codes of words tell rows apart as the words do, and need not be written out.
  const cellsOf = (name: string): ArrayLike<string | number | null> =>
    numeric.has(name) ? tests.numbers(name) : (tests.words(name)?.codes ?? tests.texts(name));
  const varying = columns.filter((name) => name === "replicates" || varies(cellsOf(name)));
  const cells = varying.map(cellsOf);
  const replicates = varying.indexOf("replicates");
  // One test and "no number of replicates" say the same.
  const cell = (column: number, i: number): string | number | null => {
    const value = cells[column]?.[i] ?? null;
    return column === replicates && Number.isNaN(value) ? 1 : value;
  };
  return [...byLoad.values()].flatMap((rows) =>
    rows.length < 2 ? [] : grouped(rows, (i) => JSON.stringify(cells.map((_, k) => cell(k, i)))),
  );
}

/** Whether a column tells any two rows apart. */
function varies(cells: ArrayLike<string | number | null>): boolean {
  for (let i = 1; i < cells.length; i += 1) if (!Object.is(cells[i], cells[0])) return true;
  return false;
}

function grouped(rows: ReadonlyArray<number>, keyOf: (i: number) => string): number[][] {
  const groups = new Map<string, number[]>();
  for (const i of rows) {
    const key = keyOf(i);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [i]);
    else group.push(i);
  }
  return [...groups.values()].filter((group) => group.length > 1);
}

function named(tests: TestTable, rows: ReadonlyArray<number>): LikelyDuplicate {
  const [ids, studies] = [tests.texts("test_id"), tests.texts("study_id")];
  return {
    test_ids: rows.map((i) => ids[i] ?? ""),
    study_ids: [...new Set(rows.map((i) => studies[i] ?? ""))],
  };
}

/** Both kinds as findings: across studies a warning, within one information. */
export function duplicateFindings(tests: TestTable, file: string): Diagnostic[] {
  const expected = "each specimen once";
  const listed = (names: ReadonlyArray<string>): string =>
    names.length <= 6
      ? names.join(", ")
      : `${names.slice(0, 6).join(", ")} and ${String(names.length - 6)} more`;
  return [
    ...likelyDuplicates(tests).map(({ test_ids, study_ids }) =>
      diagnostic(
        "warning",
        "likely-duplicate",
        `${listed(test_ids)} of the studies ${listed(study_ids)} agree in bar, concrete, embedment, set-up and load, expected each specimen in one study`,
        { file, column: "test_id", value: test_ids.join(" "), expected },
      ),
    ),
    ...repeatedRows(tests).map(({ test_ids, study_ids }) =>
      diagnostic(
        "information",
        "repeated-row",
        `${listed(test_ids)} of ${listed(study_ids)} agree in every column but the name: expected two specimens that came out alike, not one row copied`,
        { file, column: "test_id", value: test_ids.join(" "), expected },
      ),
    ),
  ];
}
