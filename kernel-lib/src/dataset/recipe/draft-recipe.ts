import { plainName, splitColumnName } from "../../units";
import { headerAmong } from "../reading/find-header";
import { sha256 } from "../reading/file-bytes";
import { likelyWord } from "../reading/likely-name";
import { matchHeader } from "../reading/match-header";
import { readNumber } from "../reading/number-cells";
import type { Column } from "../schema/column";
import { TEST_COLUMNS, testColumn } from "../schema/test-columns";
import type { CodeMeaning, Recipe, RecipeColumn } from "./recipe";
import { sourceCells } from "./source-table";

/** What a draft makes of one column of the source. */
export interface DraftedColumn {
  readonly source: string;
  /** Column of the data contract, or the name under which the column is kept as it is. */
  readonly column: string;
  readonly unit: string | null;
  /** `same name`: as the contract; `guess`: to be checked; `kept`: no column of the contract. */
  readonly found: "same name" | "guess" | "kept";
  readonly examples: readonly string[];
}

/** A recipe drafted from a table: every guess is marked, and what is missing is named. */
export interface DraftedRecipe {
  readonly recipe: Recipe;
  readonly columns: readonly DraftedColumn[];
  /** Required columns that nothing in the source seems to give. */
  readonly missing: readonly string[];
}

/** Category columns with more words than this hold something else. */
const MOST_CODES = 40;

/**
 * Drafts a recipe for a foreign table: which column is which, in which unit, and what its words
 * stand for. Nothing is imported by it: the draft is read, corrected and saved first.
 * @param bytes the file: delimited text or a spreadsheet
 * @throws DatasetError where the file holds no table
 */
export function draftRecipe(bytes: Uint8Array, file: string): DraftedRecipe {
  const name = plainName(file.replace(/\.[^.]*$/, "")).replaceAll("_", "-") || "table";
  const empty = emptyRecipe(name, file, bytes);
  const { records } = sourceCells(bytes, file, empty);
  const { headerAt } = headerAmong(
    records.map(({ cells }) => cells),
    TEST_COLUMNS,
  );
  const headerRow = records[headerAt]?.row ?? 1;
  const header = (records[headerAt]?.cells ?? []).map((cell) => cell.trim());
  const rows = records.slice(headerAt + 1).map(({ cells }) => cells);
  const decimal = decimalOf(rows);
  const matched = meantColumns(header, file, headerRow);
  const columns = matched.map((one) => ({ ...one, examples: examplesOf(rows, one.index) }));
  const filled = Object.fromEntries(
    columns.map((one) => [one.column, columnRecipe(one, wordsOf(rows, one.index))]),
  );
  const missing = TEST_COLUMNS.filter(
    ({ name: wanted, required }) =>
      required && filled[wanted] === undefined && !IMPLIED.includes(wanted),
  ).map(({ name: wanted }) => wanted);
  const study = columns.find(({ column }) => column === "study_id");
  return {
    recipe: {
      ...empty,
      source: { ...empty.source, rows: rows.filter((cells) => cells.some(Boolean)).length },
      table: { header_row: headerRow, ...(decimal === "," ? { decimal } : {}) },
      study: {
        provenance: "published",
        transcription: "table",
        ...(study === undefined
          ? { citation: "To be filled in: authors, year, title" }
          : { citation_from: study.source }),
      },
      columns: {
        ...(filled["test_id"] === undefined ? { test_id: { template: `${name}-{row}` } } : {}),
        ...(filled["series_id"] === undefined
          ? { series_id: { group_by: seriesColumns(Object.keys(filled)) } }
          : {}),
        ...filled,
        study_id: { study: true },
      },
      doubts: [
        "Drafted from the headings of the source: every column, unit and word is to be checked.",
        ...missing.map((wanted) => `${wanted} is required and was not found in the source.`),
      ],
    },
    columns: columns.map(({ index: _, ...said }) => said),
    missing,
  };
}

/** Filled by the draft itself where the source has none. */
const IMPLIED = ["test_id", "study_id", "series_id"];

/** Columns that make a series, as far as the source gives them. */
function seriesColumns(filled: readonly string[]): readonly string[] {
  const wanted = ["bar_material", "bar_surface", "bar_diameter_mm", "embedment_mm", "adhesive"];
  const found = wanted.filter((name) => filled.includes(name));
  return ["study_id", ...found];
}

function emptyRecipe(name: string, file: string, bytes: Uint8Array): Recipe {
  return {
    name,
    title: `Tests of ${file}`,
    source: { file, sha256: sha256(bytes), licence: "to be filled in" },
    table: {},
    study: { provenance: "published", transcription: "table", citation: name },
    columns: {},
  };
}

type Meant = Omit<DraftedColumn, "examples"> & { readonly index: number };

/** Each heading with the column that it names or is likely to mean; each column once. */
function meantColumns(header: readonly string[], file: string, row: number): Meant[] {
  const { columns, suggested } = matchHeader(header, null, TEST_COLUMNS, file, row);
  const guesses = [...suggested.values()];
  const taken = new Set(columns.flatMap(({ column }) => (column === null ? [] : [column.name])));
  return columns.map(({ index, typed, column, unit }): Meant => {
    if (column !== null)
      return { index, source: typed, column: column.name, unit, found: "same name" };
    const guess = guesses.find((one) => one.typed === typed);
    const likely = guess === undefined ? null : contractColumn(guess.name);
    const stated = splitColumnName(guess?.name ?? typed).unit;
    if (likely !== null && !taken.has(likely.name)) {
      taken.add(likely.name);
      const foreign = stated === likely.unit ? null : stated;
      return { index, source: typed, column: likely.name, unit: foreign, found: "guess" };
    }
    const kept = unused(plainName(typed) || `column_${index + 1}`, taken);
    taken.add(kept);
    return { index, source: typed, column: kept, unit: null, found: "kept" };
  });
}

/** The column of the contract that measures the same quantity, in whatever unit. */
function contractColumn(name: string): Column | null {
  const { quantity } = splitColumnName(name);
  return (
    testColumn(name) ??
    TEST_COLUMNS.find((column) => splitColumnName(column.name).quantity === quantity) ??
    null
  );
}

function columnRecipe(meant: Meant, words: readonly string[]): RecipeColumn {
  const known = testColumn(meant.column);
  const from = { from: meant.source };
  if (known === null) return { ...from, meaning: `as headed in the source: ${meant.source}` };
  if (known.kind === "category" && words.length <= MOST_CODES)
    return { ...from, codes: codesOf(words, known.categories ?? []) };
  return meant.unit === null ? from : { ...from, unit: meant.unit };
}

/** Each word of the source with the category that it is, or is likely to mean. */
function codesOf(
  words: readonly string[],
  categories: readonly string[],
): Readonly<Record<string, CodeMeaning>> {
  return Object.fromEntries(
    words.map((word): [string, CodeMeaning] => {
      if (categories.includes(word)) return [word, { value: word, confidence: "stated" }];
      const value = likelyWord(word, categories);
      return [word, { value, confidence: value === null ? "unknown" : "likely" }];
    }),
  );
}

function wordsOf(rows: readonly (readonly string[])[], index: number): readonly string[] {
  return [...new Set(rows.map((cells) => (cells[index] ?? "").trim()))].filter((cell) => cell);
}

function examplesOf(rows: readonly (readonly string[])[], index: number): readonly string[] {
  return wordsOf(rows, index).slice(0, 3);
}

/** A comma where more cells are numbers with it than with a point. */
function decimalOf(rows: readonly (readonly string[])[]): "." | "," {
  const cells = rows.flat().filter((cell) => /^\s*[-+]?\d+[.,]\d+\s*$/.test(cell));
  const commas = cells.filter((cell) => cell.includes(",") && readNumber(cell, ",") !== null);
  return commas.length > cells.length / 2 ? "," : ".";
}

function unused(name: string, taken: ReadonlySet<string>): string {
  let free = name;
  for (let n = 2; taken.has(free); n += 1) free = `${name}_${n}`;
  return free;
}
