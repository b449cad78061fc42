import { normal, type Distribution } from "../../statistics";

/** A basic variable seen from standard normal space: x(u) = F⁻¹(Φ(u)) and dx/du. */
export interface NormalSpaceVariable {
  readonly form: "straight" | "straight in logarithm" | "curved";
  /** x, or ln x, as at0 + slope u; null where curved. */
  readonly line: { readonly at0: number; readonly slope: number } | null;
  x(u: number): number;
  /** dx/du at u, where x is x(u). */
  slope(u: number, x: number): number;
}

const STANDARD = normal();
const PROBES = [-3.1, -1.3, 0.4, 1.9, 3.7];

/**
 * Isoprobabilistic transformation of any marginal, by the nearer tail so that it keeps its digits far out.
 *
 * Marginals whose x(u) or ln x(u) is a straight line (normal, lognormal) are recognised by their quantiles and taken
 * directly, which is exact and fast.
 */
export function normalSpaceVariable(marginal: Distribution): NormalSpaceVariable {
  const kept = known.get(marginal);
  if (kept) return kept;
  const made = transformationOf(marginal);
  known.set(marginal, made);
  return made;
}

/** A marginal is looked at once; it goes with its transformation when nobody holds it any more. */
const known = new WeakMap<Distribution, NormalSpaceVariable>();

function transformationOf(marginal: Distribution): NormalSpaceVariable {
  const x = (u: number): number => (u > 0 ? marginal.upperQuantile(STANDARD.cdf(-u)) : marginal.quantile(STANDARD.cdf(u)));
  const straight = lineThrough(x);
  if (straight) return { form: "straight", line: straight, x: (u) => straight.at0 + straight.slope * u, slope: () => straight.slope };
  const inLog = marginal.range[0] === 0 ? lineThrough((u) => Math.log(x(u))) : null;
  if (inLog) return { form: "straight in logarithm", line: inLog, x: (u) => Math.exp(inLog.at0 + inLog.slope * u), slope: (_, at) => inLog.slope * at };
  return { form: "curved", line: null, x, slope: (u, at) => Math.exp(STANDARD.logPdf(u) - marginal.logPdf(at)) };
}

function lineThrough(x: (u: number) => number): { at0: number; slope: number } | null {
  const [at0, slope] = [x(0), (x(2) - x(-2)) / 4];
  const size = Math.abs(at0) + Math.abs(slope);
  const holds = PROBES.every((u) => Math.abs(x(u) - at0 - slope * u) <= 2e-14 * size * (1 + Math.abs(u)));
  return holds && slope > 0 ? { at0, slope } : null;
}
