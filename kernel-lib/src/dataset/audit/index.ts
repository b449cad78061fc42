export { coverage, exclusions, missingness, type Coverage, type Exclusion, type Filled } from "./coverage";
export { duplicateFindings, likelyDuplicates, repeatedRows, type LikelyDuplicate } from "./duplicates";
