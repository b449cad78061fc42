export { handCheckSheet, type HandCheck, type HandCheckSheet } from "./hand-check-sheet";
export {
  handChecksOf,
  handCheckSheets,
  handCheckWorkbook,
  typicalEvidence,
  type HandCheckContent,
} from "./hand-check-workbook";
export { liveFormula } from "./live-formula";
export type { CharacteristicQuestion } from "./ratio-sheets";
