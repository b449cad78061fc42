export {
  coverage,
  exclusions,
  missingness,
  missingnessByStudy,
  type Coverage,
  type Exclusion,
  type Filled,
  type FilledByStudy,
} from "./coverage";
export {
  duplicateFindings,
  likelyDuplicates,
  repeatedRows,
  type LikelyDuplicate,
} from "./duplicates";
export { provenance, type FileProvenance } from "./provenance";
export { sameTestFindings, sameTestTwice, type SameTest } from "./same-test-twice";
export { generatedRowFindings, powersOfColumn, type PowerOfColumn } from "./generated-rows";
