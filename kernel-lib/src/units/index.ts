export { MM2_PER_IN2, MM_PER_INCH, MPA_PER_PSI, N_PER_LBF, STANDARD_GRAVITY } from "./constants";
export {
  canonicalUnit,
  convertUnit,
  unitConversion,
  unitDimension,
  unitFactor,
  type Dimension,
} from "./factors";
export { plainName, splitColumnName, type ColumnNameParts } from "./column-name";
export { axisTitle, columnTitle, type ColumnTitle } from "./column-title";
