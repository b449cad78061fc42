import { generatedRowFindings } from "../audit/generated-rows";
import { sameTestFindings } from "../audit/same-test-twice";
import { describePackage } from "../reading/data-package";
import { DatasetError, diagnostic, type Diagnostic } from "../diagnostics";
import { sha256 } from "../reading/file-bytes";
import { testColumn } from "../schema/test-columns";
import { noneUsable } from "./none-usable";
import { placedFindings, readFilledRows, sourceOf } from "./read-filled-rows";
import { sourceFindings } from "./source-findings";
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
  diagnostics.push(...sourceFindings(sources, recipe));
  const citationColumn = (recipe.study.citation_from ?? "").trim();
  const citationOf = ({ cells }: { readonly cells: ReadonlyMap<string, string> }): string =>
    recipe.study.citation ?? cells.get(citationColumn) ?? "";
  const { idOf, studies } = nameStudies(source.rows.map(citationOf), recipe);
  const rejected: RejectedRow[] = [];
  const kept: FilledRow[] = [];
  const series = new Map<string, string>();
  for (const row of source.rows) {
    const studyId = idOf.get(citationOf(row));
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
  if (kept.length === 0)
    throw new DatasetError(noneUsable(rejected, source.rows.length, shown), diagnostics);
  const header = columnOrder(recipe, kept, several);
  const extraFields = header
    .filter((name) => testColumn(name) === null)
    .map((name) => extraField(name, recipe));
  const sourceAt = (row: number | null): ReturnType<typeof sourceOf> =>
    sourceOf(row === null ? undefined : kept[row - 2]);
  const reading = readFilledRows(header, kept);
  diagnostics.push(...placedFindings(reading.diagnostics, sourceAt));
  diagnostics.push(
    ...sameTestFindings(reading.tests, shown),
    ...generatedRowFindings(reading.tests, shown),
  );
  for (const { row, reasons } of reading.rejected)
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
