export { importCard } from "./import-card";
export { importTable, importTables, type ImportedTable, type RejectedRow } from "./import-table";
export { checkRecipe, readRecipe } from "./read-recipe";
export type { CodeMeaning, Confidence, Recipe, RecipeColumn, RecipeCondition } from "./recipe";
