import type { ErrorObject } from "ajv";
import { unitDimension } from "../../units";
import { DatasetError, diagnostic, type Diagnostic } from "../diagnostics";
import { likelyName } from "../reading/likely-name";
import { readBytes } from "../reading/file-bytes";
import { TEST_COLUMNS, testColumn } from "../schema/test-columns";
import { unitOfColumn } from "./column-unit";
import type { Recipe } from "./recipe";
import recipeSchema from "./recipe.schema.json";

/**
 * Columns a recipe may name although the source does not give them: they are filled while
 * importing.
 */
export const IMPORT_COLUMNS: ReadonlyArray<string> = [
  "source_row",
  "source_file",
  "derived_columns",
  "code_confidence",
  "assumptions",
];

/**
 * Reads and checks a recipe file.
 * @throws DatasetError with every fault found, each with the place in the recipe and what was
 *   expected.
 */
export async function readRecipe(file: string): Promise<Recipe> {
  const text = new TextDecoder("utf-8").decode(await readBytes(file, file)).replace(/^\ufeff/, "");
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch (error) {
    const message = `${file} is not valid JSON (${(error as Error).message}), expected a recipe`;
    throw new DatasetError(message, [
      diagnostic("error", "bad-recipe", message, { file, expected: "valid JSON" }),
    ]);
  }
  return checkRecipe(parsed, file);
}

let validator: ReturnType<typeof compiledSchema> | undefined;

/** Loaded only when a recipe is read: reading data needs no JSON Schema. */
async function compiledSchema() {
  const { Ajv } = await import("ajv");
  return new Ajv({ allErrors: true, allowUnionTypes: true }).compile<Recipe>(recipeSchema);
}

/** Checks a recipe that is already parsed; see readRecipe. */
export async function checkRecipe(parsed: unknown, file: string): Promise<Recipe> {
  const validate = await (validator ??= compiledSchema());
  const faults: Diagnostic[] = [];
  const say = (place: string, what: string, expected: string): void => {
    faults.push(
      diagnostic("error", "bad-recipe", `${file} at ${place}: ${what}, expected ${expected}`, {
        file,
        column: place,
        expected,
      }),
    );
  };
  if (!validate(parsed)) {
    for (const error of validate.errors ?? [])
      if (error.keyword !== "oneOf")
        say(error.instancePath || "the top", error.message ?? "is wrong", expectation(error));
    if (faults.length === 0)
      say(
        validate.errors?.[0]?.instancePath ?? "the top",
        "has none or several of from, constant, template, product, group_by, study in a column, or of citation_from and citation in the study",
        "exactly one",
      );
  } else {
    for (const [name, column] of Object.entries(parsed.columns)) {
      const known = testColumn(name);
      if (known === null && column.meaning === undefined && !IMPORT_COLUMNS.includes(name)) {
        say(
          `/columns/${name}`,
          "is no column of the data contract and has no meaning",
          `${
            likelyName(
              name,
              TEST_COLUMNS.map((c) => c.name),
            ) ?? "a column of the data contract"
          }, or a meaning`,
        );
      }
      const target = unitOfColumn(name, column);
      if (
        column.unit !== undefined &&
        target !== null &&
        unitDimension(column.unit) !== unitDimension(target)
      ) {
        say(
          `/columns/${name}/unit`,
          `"${column.unit}" does not measure what ${name} holds`,
          `a unit like ${target}`,
        );
      }
      for (const needed of [column.times, ...(column.product ?? []), ...(column.group_by ?? [])]) {
        if (typeof needed === "string" && needed !== "pi" && parsed.columns[needed] === undefined)
          say(
            `/columns/${name}`,
            `needs the column "${needed}", which the recipe does not fill`,
            "a column of the recipe",
          );
      }
    }
    const names = (parsed.assumptions ?? []).map(({ name }) => name);
    (parsed.assumptions ?? []).forEach(({ name, column, value, product }, k) => {
      const place = `/assumptions/${String(k)}`;
      const known = testColumn(column);
      if (names.indexOf(name) !== k)
        say(`${place}/name`, `"${name}" is the name of another assumption`, "a name of its own");
      if (parsed.columns[column] === undefined && known === null)
        say(
          `${place}/column`,
          `"${column}" is neither filled by the recipe nor a column of the data contract`,
          likelyName(
            column,
            TEST_COLUMNS.map((c) => c.name),
          ) ?? "a column of the data contract",
        );
      if (
        typeof value === "string" &&
        known?.kind === "category" &&
        known.open !== true &&
        !(known.categories ?? []).includes(value)
      )
        say(
          `${place}/value`,
          `"${value}" is no word of ${column}`,
          `one of ${(known.categories ?? []).join(", ")}`,
        );
      for (const needed of product ?? [])
        if (typeof needed === "string" && parsed.columns[needed] === undefined)
          say(
            `${place}/product`,
            `needs the column "${needed}", which the recipe does not fill`,
            "a column of the recipe",
          );
    });
    // A condition on a column that is never filled would silently never hold.
    for (const [list, entries] of [
      ["rejects", parsed.rejects ?? []],
      ["flags", parsed.flags ?? []],
      ["assumptions", parsed.assumptions ?? []],
    ] as const) {
      entries.forEach(({ when }, k) => {
        for (const { column } of when) {
          if (
            parsed.columns[column] === undefined &&
            !IMPORT_COLUMNS.includes(column) &&
            !(list === "assumptions" && testColumn(column) !== null)
          )
            say(
              `/${list}/${String(k)}`,
              `asks for the column "${column}", which the recipe does not fill`,
              likelyName(column, Object.keys(parsed.columns)) ?? "a column of the recipe",
            );
        }
      });
    }
    for (const { name } of TEST_COLUMNS.filter(({ required }) => required)) {
      if (parsed.columns[name] === undefined)
        say("/columns", `does not fill ${name}`, "every required column");
    }
  }
  if (faults.length > 0)
    throw new DatasetError(
      `${file} is not a usable recipe:\n${faults.map(({ message }) => `  - ${message}`).join("\n")}`,
      faults,
    );
  return parsed as Recipe;
}

function expectation(error: ErrorObject): string {
  const allowed = (error.params as { allowedValues?: unknown[] }).allowedValues;
  if (allowed !== undefined) return `one of ${allowed.map(String).join(", ")}`;
  const surplus = (error.params as { additionalProperty?: string }).additionalProperty;
  return surplus === undefined ? "what the recipe schema asks for" : `no "${surplus}" there`;
}
