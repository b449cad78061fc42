export * from "./expression";
export { parseFormula } from "./parse";
export { parseRowCondition, type RowCell, type RowCondition } from "./row-condition";
export { toJavaScript, numberLiteral, type SymbolWriter } from "./print-javascript";
export { toText, bindingStrength } from "./print-text";
export { toLatex, numberLatex } from "./print-latex";
export { numberHtml, runsHtml, symbolHtml, toHtmlLine } from "./print-html";
export { toSpreadsheet } from "./print-spreadsheet";
export { evaluate } from "./evaluate";
export { rateOf, rateOfPower, type Rate } from "./elasticity";
export {
  compileColumnLoop,
  type ColumnLoop,
  type LoopOutput,
  type NamedValue,
  type RunLoop,
} from "./column-loop";
export { foldConstants, evaluateConstant, compile, holds, mostThatHold, type MostOf } from "./fold";
export { renameSymbols, replaceSymbols, toFormula } from "./rename";
export { symbolLatex, symbolText } from "./symbol-names";
export { symbolRuns, type TextRun } from "./symbol-runs";
export { latexPlain, latexText } from "./latex-text";
export { brokenLine } from "./broken-line";
export { printable, printableLine } from "./printable";
