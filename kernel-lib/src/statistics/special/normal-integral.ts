/*
 * The standard normal integral by W. J. Cody's rational approximations (Math. Comp. 23, 1969,
 * 631–637, carried to 18 digits), and its inverse by M. J. Wichura's AS 241 (Applied Statistics 37,
 * 1988, 477–484).
 */

const SQRT_TWO_PI_INVERSE = 0.39894228040143267794;

/** Standard normal density φ(z) = exp(−z²/2) / √(2π). */
export function normalDensity(z: number): number {
  return SQRT_TWO_PI_INVERSE * Math.exp(-0.5 * z * z);
}

/**
 * Standard normal distribution function Φ(z). Relative error below 1e-15 up to about z = −8, 1e-14
 * to −37.
 */
export function normalIntegral(z: number): number {
  if (z < -0.67448975) return tail(-z);
  if (z > 0.67448975) return 1 - tail(z);
  return 0.5 + centre(z);
}

/** ln Φ(z), finite for every finite z. */
export function logNormalIntegral(z: number): number {
  if (z < -0.67448975) return Math.log(scaledTail(-z)) - 0.5 * z * z;
  if (z > 0.67448975) return Math.log1p(-tail(z));
  return Math.log(0.5 + centre(z));
}

/** Mills-type ratio φ(z)/Φ(z), the slope of ln Φ, accurate far into the lower tail. */
export function normalHazardBelow(z: number): number {
  if (z < -0.67448975) return SQRT_TWO_PI_INVERSE / scaledTail(-z);
  return normalDensity(z) / normalIntegral(z);
}

/**
 * ln Φ(z) and φ(z)/Φ(z) into `out`, with the bits of {@link logNormalIntegral} and {@link
 * normalHazardBelow} at little over half their cost.
 */
export function logNormalIntegralWithHazard(z: number, out: Float64Array): void {
  if (z < -0.67448975) {
    const scaled = scaledTail(-z);
    out[0] = Math.log(scaled) - 0.5 * z * z;
    out[1] = SQRT_TWO_PI_INVERSE / scaled;
  } else if (z > 0.67448975) {
    const above = tail(z);
    out[0] = Math.log1p(-above);
    out[1] = normalDensity(z) / (1 - above);
  } else {
    const below = 0.5 + centre(z);
    out[0] = Math.log(below);
    out[1] = normalDensity(z) / below;
  }
}

function centre(z: number): number {
  const s = z * z;
  const numerator =
    (((0.065682337918207449113 * s + 2.2352520354606839287) * s + 161.02823106855587881) * s +
      1067.6894854603709582) *
      s +
    18154.981253343561249;
  const denominator =
    (((s + 47.20258190468824187) * s + 976.09855173777669322) * s + 10260.932208618978205) * s +
    45507.789335026729956;
  return (z * numerator) / denominator;
}

/** 1 − Φ(z) for z > 0.67: the scaled tail times exp(−z²/2), the square split to keep its digits. */
function tail(z: number): number {
  if (z > 38.6) return 0;
  const coarse = Math.trunc(z * 16) / 16;
  const rest = (z - coarse) * (z + coarse);
  return Math.exp(-0.5 * coarse * coarse) * Math.exp(-0.5 * rest) * scaledTail(z);
}

/** (1 − Φ(z)) exp(z²/2) for z > 0.67. */
function scaledTail(z: number): number {
  if (z < 5.656854249492380195) {
    const numerator =
      (((((((1.0765576773720192317e-8 * z + 0.39894151208813466764) * z + 8.8831497943883759412) *
        z +
        93.506656132177855979) *
        z +
        597.27027639480026226) *
        z +
        2494.5375852903726711) *
        z +
        6848.1904505362823326) *
        z +
        11602.651437647350124) *
        z +
      9842.7148383839780218;
    const denominator =
      (((((((z + 22.266688044328115691) * z + 235.38790178262499861) * z + 1519.377599407554805) *
        z +
        6485.558298266760755) *
        z +
        18615.571640885098091) *
        z +
        34900.952721145977266) *
        z +
        38912.003286093271411) *
        z +
      19685.429676859990727;
    return numerator / denominator;
  }
  const s = 1 / (z * z);
  const numerator =
    ((((0.02307344176494017303 * s + 0.21589853405795699) * s + 0.1274011611602473639) * s +
      0.022235277870649807) *
      s +
      0.001421619193227893466) *
      s +
    2.9112874951168792e-5;
  const denominator =
    ((((s + 1.28426009614491121) * s + 0.468238212480865118) * s + 0.0659881378689285515) * s +
      0.00378239633202758244) *
      s +
    7.29751555083966205e-5;
  return (SQRT_TWO_PI_INVERSE - (s * numerator) / denominator) / z;
}

/**
 * Standard normal quantile z with Φ(z) = p, 0 ≤ p ≤ 1 (−∞ and +∞ at the ends).
 * Relative error below 1e-15 by AS 241 (smallest p about 1e-316).
 */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1))
    throw new RangeError(`normalQuantile: probability is ${p}, expected a number from 0 to 1`);
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) return middleQuantile(q);
  const nearer = q < 0 ? p : 1 - p;
  if (nearer === 0) return q < 0 ? -Infinity : Infinity;
  const z = outerQuantile(Math.sqrt(-Math.log(nearer)));
  return q < 0 ? -z : z;
}

function middleQuantile(q: number): number {
  const r = 0.180625 - q * q;
  const numerator =
    ((((((r * 2509.0809287301226727 + 33430.575583588128105) * r + 67265.770927008700853) * r +
      45921.953931549871457) *
      r +
      13731.693765509461125) *
      r +
      1971.5909503065514427) *
      r +
      133.14166789178437745) *
      r +
    3.387132872796366608;
  const denominator =
    ((((((r * 5226.495278852545925 + 28729.085735721942674) * r + 39307.89580009271061) * r +
      21213.794301586595867) *
      r +
      5394.1960214247511077) *
      r +
      687.1870074920579083) *
      r +
      42.313330701600911252) *
      r +
    1;
  return (q * numerator) / denominator;
}

function outerQuantile(root: number): number {
  if (root <= 5) {
    const r = root - 1.6;
    const numerator =
      ((((((r * 7.7454501427834140764e-4 + 0.0227238449892691845833) * r + 0.24178072517745061177) *
        r +
        1.27045825245236838258) *
        r +
        3.64784832476320460504) *
        r +
        5.7694972214606914055) *
        r +
        4.6303378461565452959) *
        r +
      1.42343711074968357734;
    const denominator =
      ((((((r * 1.05075007164441684324e-9 + 5.475938084995344946e-4) * r +
        0.0151986665636164571966) *
        r +
        0.14810397642748007459) *
        r +
        0.68976733498510000455) *
        r +
        1.6763848301838038494) *
        r +
        2.05319162663775882187) *
        r +
      1;
    return numerator / denominator;
  }
  const r = root - 5;
  const numerator =
    ((((((r * 2.01033439929228813265e-7 + 2.71155556874348757815e-5) * r +
      0.0012426609473880784386) *
      r +
      0.026532189526576123093) *
      r +
      0.29656057182850489123) *
      r +
      1.7848265399172913358) *
      r +
      5.4637849111641143699) *
      r +
    6.6579046435011037772;
  const denominator =
    ((((((r * 2.04426310338993978564e-15 + 1.4215117583164458887e-7) * r +
      1.8463183175100546818e-5) *
      r +
      7.868691311456132591e-4) *
      r +
      0.0148753612908506148525) *
      r +
      0.13692988092273580531) *
      r +
      0.59983220655588793769) *
      r +
    1;
  return numerator / denominator;
}
