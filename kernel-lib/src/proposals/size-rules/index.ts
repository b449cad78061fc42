export {
  factorAlongVariable,
  type FactorAlong,
  type FactorAlongInput,
} from "./factor-along-variable";
export { simpleRules, type SimpleRule } from "./simple-rules";
export { lineBelow, type Line } from "./line-below";
export { rulesOfGroups, type RulesOfGroup, type RulesSettings } from "./rules-of-groups";
