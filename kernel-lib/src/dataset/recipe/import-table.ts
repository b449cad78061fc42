import { generatedRowFindings } from "../audit/generated-rows";
import { sameTestFindings } from "../audit/same-test-twice";
import { describePackage } from "../reading/data-package";
import { DatasetError, diagnostic, type Diagnostic } from "../diagnostics";
import { sha256 } from "../reading/file-bytes";
import { parseTests } from "../reading/read-tests";
import { testColumn } from "../schema/test-columns";
import { csvText } from "../table/csv-text";
import { allHold, assumeIn, fillRow, FillingFault, type FilledRow } from "./fill-columns";
import type { Recipe } from "./recipe";
import { sourceCells, sourceTable } from "./source-table";
import { nameStudies } from "./study-names";
import type { ImportSettings, ImportedTable, RejectedRow } from "./imported-table";
import { seriesName } from "./series-name";
import { flagged } from "./flagged-row";
import { columnOrder, extraField } from "./imported-columns";

/** Applies a recipe to one source file; see importTables. */
export function importTable(
  bytes: Uint8Array,
  file: string,
  recipe: Recipe,
  settings: ImportSettings = {},
): ImportedTable {
  return importTables([{ bytes, file }], recipe, settings);
}

/**
 * Applies a recipe to a source file, or to several of one shape, into one data set. Every source
 * row ends up either in `tests` or in `rejected`. The expected SHA-256 must be that of one of the
 * files, the expected number of rows that of all together.
 * @throws DatasetError when a source lacks a column that the recipe needs, or no row can be used.
 */
export function importTables(
  files: ReadonlyArray<{ readonly bytes: Uint8Array; readonly file: string }>,
  recipe: Recipe,
  settings: ImportSettings = {},
): ImportedTable {
  const assumptions = (recipe.assumptions ?? []).filter(
    ({ name }) => settings.assume?.includes(name) ?? true,
  );
  const read = files.map(({ bytes, file }) => ({
    file,
    sha256: sha256(bytes),
    ...sourceTable(sourceCells(bytes, file, recipe), file, recipe),
  }));
  const sources = read.map(({ file, sha256: hash, rows }) => ({
    file,
    sha256: hash,
    rows: rows.length,
  }));
  const shown = sources.map(({ file }) => file).join(", ");
  const source = { rows: read.flatMap(({ rows }) => rows) };
  const several = files.length > 1;
  const placed = (row: {
    readonly file: string;
    readonly row: number;
  }): { row: number; file?: string } =>
    several ? { row: row.row, file: row.file } : { row: row.row };
  const diagnostics: Diagnostic[] = read.flatMap(({ diagnostics: found }) => [...found]);
  const sourceHash = sources[0]?.sha256 ?? "";
  if (
    recipe.source.sha256 !== undefined &&
    !sources.some(({ sha256: hash }) => hash === recipe.source.sha256)
  ) {
    diagnostics.push(
      diagnostic(
        "warning",
        "changed-source",
        `${shown} is not the file the recipe was written for (SHA-256 ${sourceHash.slice(0, 12)}…, expected ${recipe.source.sha256.slice(0, 12)}…)`,
        { file: shown, value: sourceHash, expected: recipe.source.sha256 },
      ),
    );
  }
  if (recipe.source.rows !== undefined && recipe.source.rows !== source.rows.length) {
    diagnostics.push(
      diagnostic(
        "warning",
        "row-count",
        `${shown} has ${String(source.rows.length)} rows, expected ${String(recipe.source.rows)}`,
        { file: shown, value: String(source.rows.length), expected: String(recipe.source.rows) },
      ),
    );
  }
  const citationColumn = recipe.study.citation_from.trim();
  const { idOf, studies } = nameStudies(
    source.rows.map(({ cells: named }) => named.get(citationColumn) ?? ""),
    recipe,
  );
  const rejected: RejectedRow[] = [];
  const kept: FilledRow[] = [];
  const series = new Map<string, string>();
  for (const row of source.rows) {
    const studyId = idOf.get(row.cells.get(citationColumn) ?? "");
    try {
      if (studyId === undefined) throw new FillingFault(citationColumn, "", "the name of a study");
      const filled = assumeIn(
        fillRow(row, recipe, studyId, (key) => seriesName(series, studyId, key)),
        assumptions,
      );
      const reject = recipe.rejects?.find(({ when }) => allHold(when, filled));
      if (reject === undefined) kept.push(flagged(filled, recipe));
      else rejected.push({ ...placed(row), reason: reject.reason });
    } catch (error) {
      if (!(error instanceof FillingFault)) throw error;
      rejected.push({ ...placed(row), reason: error.message });
      diagnostics.push(
        diagnostic(
          "error",
          "unusable-cell",
          `${row.file} row ${String(row.row)}: ${error.message}`,
          {
            file: row.file,
            row: row.row,
            column: error.column,
            value: error.value,
            expected: error.expected,
          },
        ),
      );
    }
  }
  if (kept.length === 0) {
    const reasons = rejected
      .slice(0, 8)
      .map(
        ({ row, reason, file }) =>
          `\n  rejected ${file === undefined ? "" : `${file} `}row ${String(row)}: ${reason}`,
      )
      .join("");
    throw new DatasetError(
      `${shown}: none of its ${String(source.rows.length)} rows could be used, expected at least one${reasons}${rejected.length > 8 ? `\n  and ${String(rejected.length - 8)} more` : ""}`,
      diagnostics,
    );
  }
  const header = columnOrder(recipe, kept, several);
  const extraFields = header
    .filter((name) => testColumn(name) === null)
    .map((name) => extraField(name, recipe));
  // The same reader as for any tests file, so that an imported row meets the same checks.
  const text = csvText(
    header,
    kept.map((row) => header.map((name) => row.get(name) ?? null)),
  );
  const reading = parseTests(new TextEncoder().encode(text), "tests.csv", {
    declared: new Set(header),
    decimal: ".",
    delimiter: ",",
    headerRow: 1,
  });
  const sourceAt = (row: number | null): { file: string; row: number } | null => {
    const filled = row === null ? undefined : kept[row - 2];
    return filled === undefined
      ? null
      : { file: String(filled.get("source_file")), row: Number(filled.get("source_row")) };
  };
  for (const finding of reading.diagnostics) {
    // The recipe says itself what it assumed.
    if (finding.rule === "assumed-strength-basis") continue;
    const at = sourceAt(finding.row);
    diagnostics.push(
      at === null
        ? finding
        : {
            ...finding,
            ...at,
            message: finding.message.replace(
              `tests.csv row ${String(finding.row)}`,
              `${at.file} row ${String(at.row)}`,
            ),
          },
    );
  }
  diagnostics.push(
    ...sameTestFindings(reading.tests, shown),
    ...generatedRowFindings(reading.tests, shown),
  );
  for (const { row, reasons } of reading.setAside)
    rejected.push({ ...placed(sourceAt(row) ?? { file: shown, row }), reason: reasons.join("; ") });
  const marks = reading.tests.has("assumptions") ? reading.tests.texts("assumptions") : [];
  const assumed = assumptions
    .map((assumption) => ({
      ...assumption,
      rows: marks.filter((mark) => mark?.split(" ").includes(assumption.name)).length,
    }))
    .filter(({ rows }) => rows > 0);
  for (const { name, column, says, uncertainty, rows } of assumed)
    diagnostics.push(
      diagnostic(
        "information",
        "assumed",
        `${name}: ${column} of ${String(rows)} rows is assumed, not reported: ${says} (${uncertainty})`,
        { file: shown, column, expected: "a source that says so" },
      ),
    );
  const descriptor = describePackage({
    name: recipe.name,
    title: recipe.title,
    description: `Imported by recipe from ${recipe.source.file}.`,
    licence: recipe.source.licence,
    columns: header,
    extraFields,
  });
  return {
    tests: reading.tests,
    studies,
    descriptor,
    rejected: rejected.sort((a, b) => (a.file ?? "").localeCompare(b.file ?? "") || a.row - b.row),
    diagnostics,
    sourceRows: source.rows.length,
    sourceHash,
    assumed,
    sources,
  };
}
