export {
  compareAlternatives,
  type Alternative,
  type AlternativeOutcome,
  type AlternativesSettings,
} from "./compare-alternatives";
export { ruleSimplicity, type RuleSimplicity } from "./rule-simplicity";
export { usualAlternatives } from "./usual-alternatives";
