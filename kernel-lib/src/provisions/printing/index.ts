export {
  calculation,
  CALCULATION_CAUTION,
  inputKey,
  type CalculationContext,
} from "./hand-calculation";
export { handCalculationText } from "./hand-calculation-text";
export { handCalculationMarkdown } from "./hand-calculation-markdown";
export { handCalculationLatex } from "./hand-calculation-latex";
export { placingOf, type PlacingLine } from "./placing";
export { handCalculationHtml, handCalculationNotebookHtml } from "./hand-calculation-html";
export { governingSentence, interactionSentence } from "./governing-sentence";
export { showTrace, ShownTrace, traceToJson, type TraceValue } from "./show-trace";
export { writtenNumber, writtenValue } from "./written-number";
export { symbolsInWords } from "./symbols-in-words";
