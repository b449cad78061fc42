import { readFile } from "node:fs/promises";
import { basename, join } from "node:path";
import { Option, type Command } from "commander";
import {
  countBySeverity,
  DatasetError,
  diagnosticReport,
  importCard,
  importTables,
  readRecipe,
  writeDataset,
  type ImportSettings,
  type Recipe,
} from "../../dataset";
import { answering } from "../use/answering";
import { draftFor } from "./draft-recipe";
import { absent, helpNotes } from "../use/help";
import { formatOption } from "../use/option-declarations";
import { InvalidInput, invalidOption, listed, names, oneOf } from "../use/invalid-input";
import { say, tell } from "../use/printing";

interface ImportOptions {
  readonly folder: string;
  readonly format: string;
  readonly strict: boolean;
  readonly assume: string;
  readonly draft?: string;
}

/** `code-comparison import <recipe> <file>`: converts an external table to a data set. */
export function registerImportCommand(program: Command): void {
  program
    .command("import")
    .description("convert an external table by a recipe; list rejected rows")
    .argument("<recipe>", "recipe file (JSON), e.g. datasets/recipes/frp-uhpc-pullout.json")
    .argument("[files...]", "the table, or several of one layout; a template may then name {file}")
    .option(
      "--folder <folder>",
      "folder in which the folder of the data set is written",
      "datasets/imported",
    )
    .addOption(formatOption(["text", "json"]))
    .option(
      "--assume <names>",
      "assumptions of the recipe to make: all, none, or names separated by commas",
      "all",
    )
    .addOption(
      absent(
        new Option(
          "--draft <file>",
          "draft a recipe for the table that is named instead of a recipe, and write it to this file",
        ),
        "import",
      ),
    )
    .option("--strict", "treat warnings as errors: exit with 1", false)
    .addHelpText(
      "after",
      helpNotes({
        examples: [
          "import datasets/recipes/frp-swssc.json FRP_SWSSC.csv",
          "import their-table.csv --draft their-table.json",
        ],
        exit: "0 imported (warnings, and rows that the recipe rejects, are listed); 1 a row could not be used, the file is not the one the recipe was written for, or nothing was usable",
      }),
    )
    .action(answering(runImport));
}

async function runImport(
  recipeFile: string,
  files: ReadonlyArray<string>,
  { folder, format: wanted, strict, assume, draft }: ImportOptions,
): Promise<number> {
  const format = oneOf("format", wanted, ["text", "json"]);
  if (draft !== undefined) return draftFor([recipeFile, ...files], draft, format);
  if (files.length === 0)
    throw new InvalidInput(
      "No table is named. Expected: import <recipe> <files...>, or import <table> --draft <file>.",
    );
  try {
    const recipe = await readRecipe(recipeFile);
    const imported = importTables(
      await Promise.all(files.map((file) => sourceFile(file, recipe))),
      recipe,
      assumptionsNamed(assume, recipe),
    );
    const target = join(folder, recipe.name);
    await writeDataset(target, { ...imported, card: importCard(recipe, imported) });
    const counts = countBySeverity(imported.diagnostics);
    if (format === "json") {
      say(
        JSON.stringify(
          {
            folder: target,
            rows: imported.tests.length,
            source_rows: imported.sourceRows,
            studies: imported.studies.length,
            rejected: imported.rejected,
            assumed: imported.assumed,
            diagnostics: imported.diagnostics,
          },
          null,
          2,
        ),
      );
    } else {
      say(
        `${target}: ${String(imported.tests.length)} of ${String(imported.sourceRows)} rows imported, ${String(imported.studies.length)} studies, ${String(imported.rejected.length)} rejected`,
      );
      for (const { row, reason, file } of imported.rejected.slice(0, 20))
        say(`  rejected ${file === undefined ? "" : `${file} `}row ${String(row)}: ${reason}`);
      for (const { name, rows } of imported.assumed)
        say(`  assumed ${name} in ${String(rows)} rows (to omit it: --assume none)`);
      if (imported.diagnostics.length > 0) say(`\n${diagnosticReport(imported.diagnostics)}`);
    }
    const otherFile = imported.diagnostics.some(
      ({ rule }) => rule === "changed-source" || rule === "row-count",
    );
    return counts.error > 0 || otherFile || (strict && counts.warning > 0) ? 1 : 0;
  } catch (error) {
    if (!(error instanceof DatasetError)) throw error;
    if (format === "json")
      say(
        JSON.stringify(
          { folder: null, rows: 0, message: error.message, diagnostics: error.diagnostics },
          null,
          2,
        ),
      );
    else tell(error.message);
    return error.diagnostics.length > 0 &&
      !error.diagnostics.some(({ rule }) => rule === "bad-recipe" || rule === "unreadable-file")
      ? 1
      : 2;
  }
}

function assumptionsNamed(
  given: string,
  { name: recipe, assumptions = [] }: Recipe,
): ImportSettings {
  if (given === "all") return {};
  const wanted = given === "none" ? [] : names("assume", given);
  const known = ["all", "none", ...assumptions.map(({ name }) => name)];
  for (const one of wanted) {
    if (!assumptions.some(({ name }) => name === one))
      throw invalidOption("assume", one, `${listed(known)} with the recipe ${recipe}`, known);
  }
  return { assume: wanted };
}

async function sourceFile(
  file: string,
  recipe: Recipe,
): Promise<{ bytes: Uint8Array; file: string }> {
  const bytes = await readFile(file).catch(() => {
    throw new DatasetError(
      `${file} cannot be opened. Enter the table for recipe ${recipe.name} (${recipe.source.address ?? recipe.source.file}).`,
    );
  });
  return { bytes, file: basename(file) };
}
