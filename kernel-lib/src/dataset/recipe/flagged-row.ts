import { allHold, type FilledRow } from "./fill-columns";
import type { Recipe } from "./recipe";

/** A row with the remarks and exclusions of the recipe's flags. */
export function flagged(row: FilledRow, recipe: Recipe): FilledRow {
  for (const { when, remark, exclude } of recipe.flags ?? []) {
    if (!allHold(when, row)) continue;
    const target = exclude === true ? "excluded" : "remarks";
    const before = row.get(target) ?? null;
    row.set(target, before === null ? remark : `${String(before)}; ${remark}`);
  }
  return row;
}
