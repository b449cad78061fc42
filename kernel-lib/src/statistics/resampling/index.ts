export { bootstrap, bootstrapRows } from "./bootstrap";
export type { Bootstrap, BootstrapOptions } from "./bootstrap-result";
export {
  bcaInterval,
  jackknifeInfluence,
  percentileInterval,
  replicateQuantile,
  type BootstrapInterval,
} from "./bootstrap-interval";
export { permutationTest, type PermutationInput, type PermutationTest } from "./permutation-test";
export { createDrawer, planResample, rowsWithout, type ResamplePlan } from "./resample-plan";
