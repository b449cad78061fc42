export {
  applyQ,
  applyTransposedQ,
  factorise,
  inverseUpper,
  logAbsDeterminant,
  solveUpper,
  thinQ,
  type LinearDependence,
  type QrFactors,
  type QrResult,
} from "./householder-qr";
export { choleskyInPlace, choleskySolveInPlace, inversePositiveDefinite } from "./cholesky";
