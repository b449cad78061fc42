export { importCard } from "./import-card";
export { importTable, importTables } from "./import-table";
export { type ImportedTable, type ImportSettings, type RejectedRow } from "./imported-table";
export { checkRecipe, readRecipe } from "./read-recipe";
export type {
  CodeMeaning,
  Confidence,
  Recipe,
  RecipeAssumption,
  RecipeColumn,
  RecipeCondition,
} from "./recipe";
export { draftRecipe, type DraftedColumn, type DraftedRecipe } from "./draft-recipe";
