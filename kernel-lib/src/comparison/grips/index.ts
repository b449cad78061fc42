export { betterGrip } from "./better-grip";
export {
  type BetterGrip,
  type BrokenTest,
  type ByReason,
  type ModeShown,
} from "./better-grip-result";
export { furtherCourse, type FurtherCourse, type RivalMode } from "./broken-test";
export { gripMargins, type GripMargin, type GripMargins } from "./grip-margin";
export type { GripReach } from "./grip-reach";
export type { GripStrength, ReliableShare } from "./grip-result";
export { gripStrengths, type GripStrengths } from "./grip-strength";
export { gripTests, type GripTest, type GripTests } from "./grip-tests";
export { lognormalLaw, type LawQuestion, type LawTest, type LognormalLaw } from "./lognormal-law";
