import { existsSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { basename, join, resolve } from "node:path";
import {
  DatasetError,
  importCard,
  importTables,
  inventedAmong,
  readRecipe,
  writeDataset,
  type ImportedTable,
  type Recipe,
} from "../dataset";
import { assumedTable, rejectedTable } from "../tables";
import { projectRoot } from "./project";
import { KeptTable } from "./results/kept";
import { count, fileName, knownName } from "./results/names";
import type { Setting } from "./results/result";
import { withDerivedColumns } from "./tests/derived-columns";
import { Tests } from "./tests/tests";

/**
 * Tests of a foreign table, taken over by a recipe: every source row is a test or is rejected with
 * a reason.
 * @example
 * const imported = await importTests("datasets/recipes/frp-swssc.json", "FRP_SWSSC.csv");
 * await imported.save("datasets/imported/frp-swssc");
 */
export class Imported extends Tests {
  constructor(
    setting: Setting,
    private readonly recipe: Recipe,
    private readonly imported: ImportedTable,
  ) {
    super(setting, {
      table: withDerivedColumns(imported),
      conditions: [],
      rejected: imported.rejected.map(({ reason }) => ({ reason, n: 1 })),
    });
  }

  override get name(): string {
    return fileName("imported", this.recipe.name);
  }

  override get answer(): string {
    const { tests, rejected, assumed, studies, sourceRows } = this.imported;
    const rows = assumed.reduce((most, one) => Math.max(most, one.rows), 0);
    return `${tests.length} of ${count(sourceRows, "row")} imported from ${count(studies.length, "study", "studies")}, ${rejected.length} rejected with a reason; ${assumed.length === 0 ? "nothing is assumed" : `${count(assumed.length, "assumption")} of the recipe, in up to ${rows} rows`}.`;
  }

  /** Source rows that were not imported, with the reason for each. */
  rejected(): KeptTable {
    const table = rejectedTable(this.imported.rejected, {
      id: fileName(this.name, "rejected"),
      title: `Rejected rows of ${this.files}`,
      caption:
        this.imported.rejected.length === 0
          ? "No row was rejected."
          : `${count(this.imported.rejected.length, "row")} of ${this.imported.sourceRows}.`,
    });
    return new KeptTable(table, this.setting.keeps);
  }

  /** What the recipe assumed because the source does not state it, and in how many rows. */
  assumed(): KeptTable {
    const table = assumedTable(this.imported.assumed, {
      id: fileName(this.name, "assumed"),
      title: `Assumed, not reported in ${this.files}`,
      caption:
        this.imported.assumed.length === 0
          ? "Nothing was assumed."
          : "The column assumptions of each row names what was assumed.",
    });
    return new KeptTable(table, this.setting.keeps);
  }

  /**
   * Writes a data folder: tests, studies, card and descriptor. An older import by the same recipe
   * is replaced as a whole; a folder with anything else in it is left alone.
   * @param folder from the project's folder
   * @returns the folder's path
   * @throws RangeError for a folder that holds something other than an import by this recipe
   */
  override async save(folder: string): Promise<string> {
    const path = resolve(projectRoot(), folder);
    if (existsSync(path) && (await namedIn(path)) !== this.imported.descriptor.name)
      throw new RangeError(
        `${folder} is not an import by the recipe ${this.recipe.name}. Expected a new folder, or one that this recipe wrote.`,
      );
    await writeDataset(path, { ...this.imported, card: importCard(this.recipe, this.imported) });
    return path;
  }

  protected override sentences(): readonly string[] {
    return [
      this.answer,
      ...this.imported.diagnostics
        .filter(({ severity }) => severity !== "information")
        .slice(0, 10)
        .map(({ message }) => `${message}.`),
    ];
  }

  private get files(): string {
    return this.imported.sources.map(({ file }) => file).join(", ");
  }
}

/** How a table is imported. */
export interface ImportOptions {
  /** Names of the recipe's assumptions to make; default all. */
  readonly assume?: readonly string[];
  /** Whether shown tables and figures are written to `exports/`; default "shown". */
  readonly keep?: "shown" | "none";
}

/**
 * Reads one or several tables of one shape by a recipe (`datasets/recipes/README.md`).
 * @param recipe path of the recipe, from the working folder or the project's folder
 * @param files the table, or several of one shape; paths as for the recipe
 * @throws DatasetError where the recipe or a file cannot be used, or no row is usable
 * @example await importTests("datasets/recipes/frp-swssc.json", "FRP_SWSSC.csv")
 */
export async function importTests(
  recipe: string,
  files: string | readonly string[],
  options: ImportOptions = {},
): Promise<Imported> {
  const read = await readRecipe(inProject(recipe));
  const paths = typeof files === "string" ? [files] : files;
  const sources = await Promise.all(
    paths.map(async (path) => ({
      file: basename(path),
      bytes: await readFile(inProject(path)).catch(() => {
        throw new DatasetError(
          `${path} cannot be opened, expected the table for recipe ${read.name} (${read.source.address ?? read.source.file})`,
        );
      }),
    })),
  );
  const names = (read.assumptions ?? []).map(({ name }) => name);
  for (const name of options.assume ?? []) knownName("assumption", name, names);
  const imported = importTables(sources, read, options);
  return new Imported(
    { keeps: options.keep !== "none", invented: inventedAmong(imported.studies), seed: 1 },
    read,
    imported,
  );
}

/** The name in a data folder's descriptor; null where there is none. */
async function namedIn(folder: string): Promise<string | null> {
  const text = await readFile(join(folder, "datapackage.json"), "utf8").catch(() => "{}");
  try {
    return (JSON.parse(text) as { name?: string }).name ?? null;
  } catch {
    return null;
  }
}

/** A path from the working folder where there is such a file, else from the project's folder. */
function inProject(path: string): string {
  return existsSync(path) ? path : resolve(projectRoot(), path);
}
