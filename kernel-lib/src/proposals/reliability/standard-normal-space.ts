import { normal, type Distribution } from "../../statistics";

/** A basic variable seen from standard normal space: x(u) = F⁻¹(Φ(u)) and dx/du. */
export interface NormalSpaceVariable {
  readonly form: "straight" | "straight in logarithm" | "straight in Gumbel variate" | "curved";
  /**
   * x, or ln x, as at0 + slope u, or x as at0 + slope w with w = −ln(−ln Φ(u)); null where curved.
   */
  readonly line: { readonly at0: number; readonly slope: number } | null;
  x(u: number): number;
  /** dx/du at u, where x is x(u). */
  slope(u: number, x: number): number;
}

const STANDARD = normal();
const SQRT_TWO_PI_INVERSE = 0.39894228040143267794;
const PROBES = [-3.1, -1.3, 0.4, 1.9, 3.7];

/**
 * Isoprobabilistic transformation of any marginal, by the nearer tail so that it keeps its digits
 * far out.
 *
 * Marginals whose x or ln x is a straight line in u (normal, lognormal), or x one in −ln(−ln Φ(u))
 * (Gumbel of largest), are recognised by their quantiles and taken directly, with their own
 * derivative: exact and fast.
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
  const x = (u: number): number =>
    u > 0 ? marginal.upperQuantile(STANDARD.cdf(-u)) : marginal.quantile(STANDARD.cdf(u));
  const straight = lineThrough(x);
  if (straight)
    return {
      form: "straight",
      line: straight,
      x: (u) => straight.at0 + straight.slope * u,
      slope: () => straight.slope,
    };
  const inLog = marginal.range[0] === 0 ? lineThrough((u) => Math.log(x(u))) : null;
  if (inLog)
    return {
      form: "straight in logarithm",
      line: inLog,
      x: (u) => Math.exp(inLog.at0 + inLog.slope * u),
      slope: (_, at) => inLog.slope * at,
    };
  const inGumbel = lineThrough(x, gumbelVariate);
  if (inGumbel) {
    const { at0, slope } = inGumbel;
    // With t = −ln Φ(u) = exp(−w): dw/du = φ(u) / (Φ(u) t).
    return {
      form: "straight in Gumbel variate",
      line: inGumbel,
      x: (u) => at0 + slope * gumbelVariate(u),
      slope: (u, at) => gumbelSlope(slope, u, (at - at0) / slope),
    };
  }
  return {
    form: "curved",
    line: null,
    x,
    slope: (u, at) => Math.exp(STANDARD.logPdf(u) - marginal.logPdf(at)),
  };
}

function gumbelVariate(u: number): number {
  return -Math.log(u > 0 ? -Math.log1p(-STANDARD.cdf(-u)) : -Math.log(STANDARD.cdf(u)));
}

function gumbelSlope(scale: number, u: number, w: number): number {
  return scale * SQRT_TWO_PI_INVERSE * Math.exp(w - 0.5 * u * u + Math.exp(-w));
}

function lineThrough(
  x: (u: number) => number,
  variate: (u: number) => number = (u) => u,
): { at0: number; slope: number } | null {
  const [low, high] = [variate(-2), variate(2)];
  const slope = (x(2) - x(-2)) / (high - low);
  const at0 = x(0) - slope * variate(0);
  const size = Math.abs(at0) + Math.abs(slope);
  const holds = PROBES.every(
    (u) => Math.abs(x(u) - at0 - slope * variate(u)) <= 2e-14 * size * (1 + Math.abs(u)),
  );
  return holds && slope > 0 ? { at0, slope } : null;
}
