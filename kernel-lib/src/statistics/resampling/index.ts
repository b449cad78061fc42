export { bootstrap, bootstrapRows, type Bootstrap, type BootstrapOptions } from "./bootstrap";
export { bcaInterval, jackknifeInfluence, percentileInterval, replicateQuantile, type BootstrapInterval } from "./bootstrap-interval";
export { permutationTest, type PermutationInput, type PermutationTest } from "./permutation-test";
export { createDrawer, planResample, rowsWithout, type ResamplePlan } from "./resample-plan";
