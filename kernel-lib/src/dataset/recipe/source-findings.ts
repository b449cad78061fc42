import { diagnostic, type Diagnostic } from "../diagnostics";
import type { ImportedTable } from "./imported-table";
import type { Recipe } from "./recipe";

/** Files with another digest or number of rows than the recipe was written for. */
export function sourceFindings(sources: ImportedTable["sources"], recipe: Recipe): Diagnostic[] {
  const found: Diagnostic[] = [];
  const shown = sources.map(({ file }) => file).join(", ");
  const sourceHash = sources[0]?.sha256 ?? "";
  const rows = sources.reduce((sum, one) => sum + one.rows, 0);
  if (
    recipe.source.sha256 !== undefined &&
    !sources.some(({ sha256: hash }) => hash === recipe.source.sha256)
  ) {
    found.push(
      diagnostic(
        "warning",
        "changed-source",
        `${shown} is not the file the recipe was written for (SHA-256 ${sourceHash.slice(0, 12)}…, expected ${recipe.source.sha256.slice(0, 12)}…)`,
        { file: shown, value: sourceHash, expected: recipe.source.sha256 },
      ),
    );
  }
  if (recipe.source.rows !== undefined && recipe.source.rows !== rows) {
    found.push(
      diagnostic(
        "warning",
        "row-count",
        `${shown} has ${String(rows)} rows, expected ${String(recipe.source.rows)}`,
        { file: shown, value: String(rows), expected: String(recipe.source.rows) },
      ),
    );
  }
  return found;
}
