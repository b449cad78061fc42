export type { ClassOfTests } from "./class-of-tests";
export { homogeneityOfClasses, type Homogeneity } from "./homogeneity";
export { factorsOfModes, type FactorsOfMode, type PoolingSettings } from "./factors-of-mode";
