export { importCard } from "./import-card";
export {
  importTable,
  importTables,
  type ImportedTable,
  type ImportSettings,
  type RejectedRow,
} from "./import-table";
export { checkRecipe, readRecipe } from "./read-recipe";
export type {
  CodeMeaning,
  Confidence,
  Recipe,
  RecipeAssumption,
  RecipeColumn,
  RecipeCondition,
} from "./recipe";
