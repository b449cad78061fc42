export { boundsByMode, coverage, exclusions, missingness, type BoundCount, type Coverage, type Exclusion, type Filled } from "./coverage";
export { duplicateFindings, likelyDuplicates, type LikelyDuplicate } from "./duplicates";
