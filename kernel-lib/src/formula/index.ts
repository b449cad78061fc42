export * from "./expression";
export { parseFormula } from "./parse";
export { toJavaScript, numberLiteral, type SymbolWriter } from "./print-javascript";
export { toText, bindingStrength } from "./print-text";
export { toLatex, numberLatex } from "./print-latex";
export { toSpreadsheet } from "./print-spreadsheet";
export { foldConstants, evaluateConstant, compile } from "./fold";
export { renameSymbols, toFormula } from "./rename";
export { symbolLatex, symbolText } from "./symbol-names";
