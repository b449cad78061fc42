import type { TableField } from "../reading/data-package";
import { TEST_COLUMNS, testColumn } from "../schema/test-columns";
import { unitOfColumn } from "./column-unit";
import type { FilledRow } from "./fill-columns";
import type { Recipe } from "./recipe";

/**
 * Columns of the imported table: those of the schema that are filled or required, the recipe's own,
 * then what the import adds.
 */
export function columnOrder(
  recipe: Recipe,
  rows: ReadonlyArray<FilledRow>,
  several: boolean,
): string[] {
  const filled = (name: string): boolean => rows.some((row) => (row.get(name) ?? null) !== null);
  const ours = TEST_COLUMNS.filter(({ name, required }) => required || filled(name)).map(
    ({ name }) => name,
  );
  const extra = Object.keys(recipe.columns).filter(
    (name) => testColumn(name) === null && filled(name),
  );
  return [
    ...ours,
    ...extra,
    ...[
      "derived_columns",
      "assumptions",
      "code_confidence",
      ...(several ? ["source_file"] : []),
      "source_row",
    ].filter((name) => !extra.includes(name) && filled(name)),
  ];
}

const IMPORT_MEANINGS: Readonly<Record<string, string>> = {
  derived_columns:
    "columns of this row that were calculated, not reported; never use them to check what they were calculated from",
  assumptions:
    "names of what the recipe assumed in this row because the source does not say it; the card explains each",
  code_confidence:
    "codes of the source whose meaning is not stated there, and how sure the reading is",
  source_row: "row in the source file",
  source_file: "the source file",
};

/** A column outside the schema, for the descriptor. */
export function extraField(name: string, recipe: Recipe): TableField {
  const column = recipe.columns[name];
  const numeric =
    name === "source_row" ||
    column?.unit !== undefined ||
    column?.times !== undefined ||
    column?.product !== undefined ||
    column?.scale !== undefined;
  return {
    name,
    type: numeric ? "number" : "string",
    description: column?.meaning ?? IMPORT_MEANINGS[name] ?? "",
    ...(column?.unit === undefined ? {} : { unit: unitOfColumn(name, column) ?? column.unit }),
  };
}
