export { roundToSafeSide } from "./rounding";
export {
  changedProvisions,
  type Addition,
  type Proposal,
  type ProposedChange,
  type Restriction,
} from "./proposal";
export { readProposal } from "./read-proposal";
export {
  outsideLimits,
  testedLimits,
  type OutsideLimit,
  type ValidityLimit,
} from "./validity-limits";
export { applyProposal, applyProposals, codeBeforeChange, provisionOf } from "./apply-proposal";
export { printedEquation } from "./changed-provision";
export { usesOfResult } from "./uses-of-result";
export { proposedJointly, type DeriveOn } from "./proposed-jointly";
export { narrowedToTested } from "./narrowed-to-tested";
export { changedEvidence, evidenceOfChange, type ChangeEvidence } from "./change-evidence";
export { factorPlaces, familyOf } from "./factor-places";
export { columnSymbol, CONDITION_COLUMNS, conditionFormula, EVERY_BAR } from "./condition-formula";
export * from "./criteria";
export * from "./pooling";
export {
  FRP_MODES_ACI318,
  oneFactorPerClass,
  oneFactorPerMode,
  type FactorPlace,
} from "./one-factor-per-mode";
export { factorCase, type FactorCase, type FactorCaseSettings } from "./factor-case";
export {
  beforeAfterOf,
  type BeforeAfter,
  type BeforeAfterGroup,
  type BeforeAfterSettings,
} from "./before-after";
export {
  DEMERIT_CLASSES,
  DEMERIT_NOTE,
  demeritScore,
  type DemeritClass,
  type DemeritScore,
} from "./demerit-score";
export * from "./en1990-d8";
export {
  smallSampleCorrection,
  testBasedResistanceFactor,
  type TestBasedInput,
  type TestBasedResistanceFactor,
} from "./test-based-resistance-factor";
export * from "./reliability";
export * from "./size-rules";
export * from "./standing";
export * from "./alternatives";
export * from "./campaign";
export { rangeWords, short, testedScope, type ScopeRange, type TestedScope } from "./tested-scope";
export * from "./ballot";
