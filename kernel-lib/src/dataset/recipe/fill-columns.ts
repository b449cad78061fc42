import { canonicalUnit, unitConversion } from "../../units";
import { readNumber } from "../reading/number-cells";
import { unitOfColumn } from "./column-unit";
import { numberHint, otherSign } from "../reading/number-hints";
import { testColumn } from "../schema/test-columns";
import type { Confidence, Recipe, RecipeAssumption, RecipeColumn, RecipeCondition } from "./recipe";
import type { SourceRow } from "./source-table";

/** Our cells of one row, by our column names: a number, a text, or null for missing. */
export type FilledRow = Map<string, string | number | null>;

/** What went wrong while filling a cell. */
export class FillingFault extends Error {
  override readonly name = "FillingFault";
  readonly column: string;
  readonly value: string;
  readonly expected: string;

  constructor(column: string, value: string, expected: string) {
    super(`${column}: "${value}" cannot be used, expected ${expected}`);
    this.column = column;
    this.value = value;
    this.expected = expected;
  }
}

/**
 * Fills one row by the recipe, each column after those it needs. Series are numbered by `seriesOf`.
 */
export function fillRow(
  source: SourceRow,
  recipe: Recipe,
  studyId: string,
  seriesOf: (key: string) => string,
): FilledRow {
  const filled: FilledRow = new Map();
  const doubts: string[] = [];
  const underway = new Set<string>();
  const fill = (name: string): string | number | null => {
    if (filled.has(name)) return filled.get(name) ?? null;
    const column = recipe.columns[name];
    if (column === undefined) return null;
    if (underway.has(name))
      throw new FillingFault(name, "itself", "columns that do not need each other in a circle");
    underway.add(name);
    const value =
      column.study === true
        ? studyId
        : filledValue(name, column, {
            source,
            recipe,
            fill,
            seriesOf,
            doubt: (code, confidence) => doubts.push(`${name} ${code}: ${confidence}`),
          });
    filled.set(name, value);
    return value;
  };
  for (const name of Object.keys(recipe.columns)) fill(name);
  filled.set("source_row", source.row);
  filled.set("source_file", source.file);
  const derived = Object.entries(recipe.columns)
    .filter(([name, column]) => column.derived === true && filled.get(name) !== null)
    .map(([name]) => name);
  filled.set("derived_columns", derived.length === 0 ? null : derived.join(" "));
  filled.set("code_confidence", doubts.length === 0 ? null : doubts.join("; "));
  return filled;
}

interface Filling {
  readonly source: SourceRow;
  readonly recipe: Recipe;
  readonly fill: (name: string) => string | number | null;
  readonly seriesOf: (key: string) => string;
  readonly doubt: (code: string, confidence: Confidence) => void;
}

function filledValue(name: string, column: RecipeColumn, filling: Filling): string | number | null {
  const { source, recipe, fill, seriesOf } = filling;
  const number = (needed: string | number): number | null => {
    if (needed === "pi") return Math.PI;
    const value = typeof needed === "number" ? needed : fill(needed);
    if (value === null || typeof value === "number") return value;
    throw new FillingFault(String(needed), value, `a number, as ${name} is calculated from it`);
  };
  if (column.constant !== undefined) return column.constant;
  if (column.template !== undefined)
    return column.template.replace(/\{(\w+)\}/g, (_, key: string) =>
      key === "row"
        ? String(source.row)
        : key === "file"
          ? source.file.replace(/\.[^.]*$/, "")
          : String(fill(key) ?? ""),
    );
  if (column.group_by !== undefined)
    return seriesOf(JSON.stringify(column.group_by.map((needed) => fill(needed))));
  if (column.product !== undefined) {
    const factors = column.product.map(number);
    return factors.includes(null)
      ? null
      : calculated(
          factors.reduce<number>((product, factor) => product * (factor ?? NaN), column.scale ?? 1),
        );
  }
  const cell = source.cells.get((column.from ?? "").trim()) ?? "";
  if (cell === "") return null;
  if (column.codes !== undefined) return decode(name, cell, column.codes, filling);
  const known = testColumn(name);
  const isNumber =
    known === null
      ? column.unit !== undefined || column.times !== undefined || column.scale !== undefined
      : known.kind === "number" || known.kind === "integer";
  if (!isNumber) return cell;
  const value = readNumber(cell, recipe.table.decimal ?? ".");
  if (value === null) {
    const decimal = recipe.table.decimal ?? ".";
    const other = otherSign(cell, decimal);
    const hint =
      numberHint(cell) ??
      (other === null
        ? null
        : `${other}, or, where all are so, "decimal": "${decimal === "." ? "," : "."}" into the recipe's table`);
    throw new FillingFault(
      column.from ?? name,
      cell,
      hint === null ? "a number" : `a number (it ${hint})`,
    );
  }
  const unit = column.unit === undefined ? null : canonicalUnit(column.unit);
  const target = unitOfColumn(name, column);
  const { factor, offset } =
    unit === null || target === null ? { factor: 1, offset: 0 } : unitConversion(unit, target);
  const times = column.times === undefined ? 1 : number(column.times);
  if (times === null) return null;
  const total = factor * times * (column.scale ?? 1);
  return total === 1 && offset === 0 ? value : calculated(value * total + offset);
}

/** A calculated value without the last bits' noise: 12.7 x 7.874015748031496 is 100. */
function calculated(value: number): number {
  return Number(value.toPrecision(12));
}

function decode(
  name: string,
  cell: string,
  codes: NonNullable<RecipeColumn["codes"]>,
  filling: Filling,
): string | null {
  const value = readNumber(cell, filling.recipe.table.decimal ?? ".");
  const found = Object.entries(codes).find(
    ([code]) => code === cell || (value !== null && readNumber(code, ".") === value),
  );
  if (found === undefined)
    throw new FillingFault(name, cell, `one of the codes ${Object.keys(codes).join(", ")}`);
  const [code, meaning] = found;
  if (meaning.confidence !== "stated") filling.doubt(code, meaning.confidence);
  return meaning.value;
}

/**
 * Makes the assumptions of a recipe in a filled row, in the order of the recipe, and writes their
 * names into `assumptions`. A product in which a number is missing assumes nothing.
 */
export function assumeIn(row: FilledRow, assumptions: ReadonlyArray<RecipeAssumption>): FilledRow {
  const made: string[] = [];
  for (const { name, column, when, value, product } of assumptions) {
    if (!allHold(when, row)) continue;
    const factors = product?.map((needed) =>
      typeof needed === "number" ? needed : (row.get(needed) ?? null),
    );
    const assumed =
      factors === undefined
        ? (value ?? null)
        : factors.every((factor) => typeof factor === "number")
          ? calculated(factors.reduce((all, factor) => all * factor, 1))
          : null;
    if (assumed === null) continue;
    row.set(column, assumed);
    made.push(name);
  }
  row.set("assumptions", made.length === 0 ? null : made.join(" "));
  return row;
}

/** Whether all conditions hold for a filled row. */
export function allHold(conditions: ReadonlyArray<RecipeCondition>, row: FilledRow): boolean {
  return conditions.every((condition) => {
    const value = row.get(condition.column) ?? null;
    if (condition.blank !== undefined && (value === null) !== condition.blank) return false;
    if (
      condition.is !== undefined &&
      !condition.is.some(
        (wanted) => wanted === value || (typeof value === "number" && Number(wanted) === value),
      )
    )
      return false;
    if (condition.above !== undefined && !(typeof value === "number" && value > condition.above))
      return false;
    if (condition.below !== undefined && !(typeof value === "number" && value < condition.below))
      return false;
    if (
      condition.more_decimals_than !== undefined &&
      !(
        typeof value === "number" &&
        (String(value).split(".")[1] ?? "").length > condition.more_decimals_than
      )
    )
      return false;
    return true;
  });
}
