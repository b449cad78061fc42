import { existsSync } from "node:fs";
import { mkdir, readFile, writeFile } from "node:fs/promises";
import { basename, dirname, resolve } from "node:path";
import { DatasetError, draftRecipe as draftOf, type DraftedRecipe, type Recipe } from "../dataset";
import { Table } from "../tables";
import { projectRoot } from "./project";
import { count, fileName } from "./results/names";
import { Result, type Setting, type TableView } from "./results/result";

/**
 * A recipe drafted from a foreign table: which column is likely to be which, in which unit. Every
 * guess is to be checked before `importTests` uses it.
 * @example
 * const draft = await draftRecipe("datasets/demo/tests.csv");
 * await draft.save("exports/their-table.json");
 */
export class RecipeDraft extends Result<"columns" | "words"> {
  constructor(
    protected readonly setting: Setting,
    readonly drafted: DraftedRecipe,
  ) {
    super();
  }

  get name(): string {
    return fileName("recipe draft", this.recipe.name);
  }

  /** The recipe as drafted. */
  get recipe(): Recipe {
    return this.drafted.recipe;
  }

  get answer(): string {
    const of = (found: string): number =>
      this.drafted.columns.filter((column) => column.found === found).length;
    const missing = this.drafted.missing;
    return `${count(this.drafted.columns.length, "column")}: ${of("same name")} named as in the data contract, ${of("guess")} guessed, ${of("kept")} kept as they are. ${missing.length === 0 ? "Every required column was found." : `Still to be filled in: ${missing.join(", ")}.`}`;
  }

  /** Writes the recipe as JSON, to be corrected by hand; an existing file is left alone. */
  override async save(path: string): Promise<string> {
    const target = resolve(projectRoot(), path);
    if (existsSync(target))
      throw new RangeError(`${path} exists. Expected the name of a new recipe file.`);
    await mkdir(dirname(target), { recursive: true });
    await writeFile(target, `${JSON.stringify(this.recipe, null, 2)}\n`);
    return target;
  }

  override toJSON(): unknown {
    return this.recipe;
  }

  protected sentences(): readonly string[] {
    const guesses = this.drafted.columns.filter(({ found }) => found === "guess");
    const words = this.words.filter(({ value }) => value === null);
    return [
      this.answer,
      ...guesses.map(
        ({ source, column, unit }) =>
          `Check: "${source}" is read as ${column}${unit === null ? "" : `, in ${unit}`}.`,
      ),
      ...words.map(({ column, word }) => `"${word}" of ${column} has no meaning yet.`),
    ];
  }

  protected tableViews(): Readonly<Record<"columns" | "words", TableView>> {
    return {
      columns: {
        title: `Columns of ${this.recipe.source.file}`,
        caption: this.answer,
        notes: ["guess: check column and unit", "kept: not a column of the data contract"],
        make: (text) =>
          new Table({
            ...text,
            rowKey: ["source"],
            columns: [
              { key: "source", title: "source", kind: "text" },
              { key: "column", title: "read as", kind: "text" },
              { key: "unit", title: "unit", kind: "text" },
              { key: "found", title: "found", kind: "text" },
              { key: "examples", title: "examples", kind: "text" },
            ],
            rows: this.drafted.columns.map(({ examples, ...row }) => ({
              ...row,
              unit: row.unit ?? "",
              examples: examples.join("; "),
            })),
          }),
      },
      words: {
        title: `Words of ${this.recipe.source.file}`,
        caption: "Meaning of each word of the source; check those marked likely or unknown.",
        make: (text) =>
          new Table({
            ...text,
            rowKey: ["column", "word"],
            columns: [
              { key: "column", title: "column", kind: "text" },
              { key: "word", title: "word", kind: "text" },
              { key: "value", title: "read as", kind: "text" },
              { key: "confidence", title: "confidence", kind: "text" },
            ],
            rows: this.words.map((row) => ({ ...row, value: row.value ?? "" })),
          }),
      },
    };
  }

  private get words() {
    return Object.entries(this.recipe.columns).flatMap(([column, { codes = {} }]) =>
      Object.entries(codes).map(([word, { value, confidence }]) => ({
        column,
        word,
        value,
        confidence,
      })),
    );
  }
}

/**
 * Drafts a recipe for a foreign table: columns, units and words guessed, every guess marked.
 * @param file the table: delimited text or a spreadsheet; a path from the working folder or the
 *   project's folder
 * @throws DatasetError where the file cannot be opened or holds no table
 * @example (await draftRecipe("datasets/demo/tests.csv")).table("columns")
 */
export async function draftRecipe(file: string): Promise<RecipeDraft> {
  const path = existsSync(file) ? file : resolve(projectRoot(), file);
  const bytes = await readFile(path).catch(() => {
    throw new DatasetError(`${file} cannot be opened, expected a table to draft a recipe for.`);
  });
  const drafted = draftOf(bytes, basename(file));
  return new RecipeDraft({ keeps: false, invented: false, seed: 1 }, drafted);
}
