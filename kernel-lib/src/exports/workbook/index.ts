export { factorsOfChange } from "./factors-of-change";
export { handCheckSheet } from "./hand-check-sheet";
export { type HandCheck, type HandCheckSheet } from "./hand-check";
export {
  handChecksOf,
  handCheckSheets,
  handCheckWorkbook,
  typicalEvidence,
  type HandCheckContent,
} from "./hand-check-workbook";
export { liveFormula } from "./live-formula";
export type { CharacteristicQuestion } from "./factor-sheet";
