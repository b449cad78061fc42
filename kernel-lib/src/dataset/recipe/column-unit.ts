import { canonicalUnit, splitColumnName } from "../../units";
import { testColumn } from "../schema/test-columns";
import type { RecipeColumn } from "./recipe";

/**
 * Unit of the values that a recipe fills a column with: that of the data contract, else the unit
 * that the column's name ends in, else the unit of the source. A source in psi fills
 * `bond_stress_MPa` with MPa.
 */
export function unitOfColumn(name: string, column: RecipeColumn | undefined): string | null {
  const known = testColumn(name);
  if (known !== null) return known.unit;
  const stated = column?.unit === undefined ? null : canonicalUnit(column.unit);
  return splitColumnName(name).unit ?? stated;
}
