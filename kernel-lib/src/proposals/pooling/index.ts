export { homogeneityOfClasses, type ClassOfTests, type Homogeneity } from "./homogeneity";
export { factorsOfModes, type FactorsOfMode, type PoolingSettings } from "./factors-of-mode";
