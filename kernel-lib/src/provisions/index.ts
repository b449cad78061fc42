export * from "./model/definition";
export * from "./model/levels";
export * from "./model/unit-system";
export { statementOf } from "./model/yes-or-no";
export { INPUTS, isInput, type InputDefinition, type InputName } from "./inputs/catalogue";
export { CYLINDER_FACTOR, type StrengthRule } from "./inputs/concrete-strength";
export type { DerivedColumn, InputColumn } from "./inputs/derived-column";
export { Specimens, type Readings, type TestColumns } from "./inputs/prepare";
export { rowWindows } from "./inputs/row-window";
export { symbolsRead, stepsOf, type ReadSymbol } from "./model/provision-symbols";
export { readsStep } from "./model/reads-step";
export { MISSING } from "./model/loop-plan";
export {
  predict,
  type CodePrediction,
  type PredictionSettings,
  type ProvisionColumn,
} from "./model/predict";
export { reasonsAt, clauseOf, type Reason } from "./model/reasons";
export { blanksOf, predictionNeeds, type PredictionNeed } from "./model/needs";
export { trace, type Trace, type TraceLine, type TracePart } from "./model/trace";
export {
  interactionAt,
  interactionRule,
  resultantAt,
  type InteractionCapacity,
  type InteractionPart,
} from "./model/interaction";
export type { InteractionEquation, InteractionRule } from "./model/interaction-rule";
export { interactionRestsOn, interactionTrace } from "./model/interaction-trace";
export { governing, type Governing } from "./model/governing";
export { governingRows, type GoverningRow } from "./model/governing-rows";
export { provisionUse, type ProvisionUse } from "./model/provision-use";
export { INSTALLATION_UNCOUNTED, installationWords } from "./model/installation-conditions";
export { hasLoad, setupAllows, setupOfAction, testReaches } from "./model/setup-modes";
export { testedByOf, whyNotTested } from "./model/tested-by";
export type { TestedBy, TestedInstallation } from "./model/tested-by-rule";
export { assumedAt, substitutionFinder } from "./model/substituted";
export { restsOnFinder } from "./model/rests-on";
export { limitValues } from "./model/limit-values";
export { limitRanges, rangesOf, type LimitRange } from "./model/limit-ranges";
export { VariedRow, type Changes } from "./inputs/varied-row";
export * from "./sensitivity";
export * from "./planning";
export * from "./design-comparison";
export { CODES, code } from "./codes/index";
export * from "./printing";
export {
  developmentLength,
  developmentTrace,
  type DevelopmentCase,
  type DevelopmentLength,
  type DevelopmentLengthDefinition,
  type DevelopmentLengthRule,
  type DevelopmentStep,
} from "./model/development-length";
export {
  DEVELOPMENT_LENGTHS,
  developmentLengthRule,
  developmentLengthsOf,
} from "./codes/development-lengths";
export { detailChecks, type DetailVerdict } from "./model/detail-checks";
export type { DetailCheck } from "./model/detail-check";
export {
  ACI318_DETAIL_CHECKS,
  powerInteraction,
  trilinearInteraction,
  type InteractionResult,
} from "./codes/aci318-19";
export {
  concreteInteraction,
  steelInteraction,
  type InteractionCheck,
} from "./codes/en1992-4-2018";
export { localBondLaw, slipAtSplitting, type LocalBond } from "./codes/fib-mc2010";
export { bendStrength } from "./codes/aci440.1r-15";
export * from "./lookups";
