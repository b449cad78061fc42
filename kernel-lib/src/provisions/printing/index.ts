export { CALCULATION_CAUTION, type CalculationContext } from "./hand-calculation";
export { handCalculationText } from "./hand-calculation-text";
export { handCalculationMarkdown } from "./hand-calculation-markdown";
export { handCalculationLatex } from "./hand-calculation-latex";
export { placingOf, type PlacingLine } from "./placing";
export { handCalculationHtml } from "./hand-calculation-html";
export { governingSentence } from "./governing-sentence";
export { showTrace, ShownTrace, traceToJson, type TraceValue } from "./show-trace";
export { writtenNumber, writtenValue } from "./written-number";
