export type { CensoredDistribution } from "./location-scale-law";
export { fitCensored, type CensoredFit, type FitCensoredInput } from "./fit-censored";
export type { CensoredInput, CensoredSetAside } from "./censored-sample";
export type { CensoredParameter } from "./censored-parameters";
export type { CensoredStatement } from "./censored-words";
export { kaplanMeier, type KaplanMeier, type SurvivalStep } from "./kaplan-meier";
export { logRank, type LogRank, type LogRankGroup, type LogRankInput } from "./log-rank";
export { characteristicCensored } from "./characteristic-censored";
export {
  type CharacteristicCensored,
  type CharacteristicCensoredInput,
  type CharacteristicMethod,
} from "./characteristic-question";
