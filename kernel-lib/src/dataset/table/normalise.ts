import type { StrengthBasis } from "../schema/categories";

/** A value normalised to a reference, with both given so that neither is lost. */
export interface Normalised {
  readonly value: number;
  readonly normalised: number;
  readonly factor: number;
  readonly exponent: number;
  readonly reference: number;
}

/** Exponents on concrete strength by mode: 0.5 for concrete breakout (ACI 355.4 way), 0.5 for edge breakout and pryout, 0 for bar modes. Bond has none: it must be given or fitted (often 0 to 0.5). */
export const CONCRETE_STRENGTH_EXPONENTS: Readonly<Record<string, number>> = {
  concrete_breakout: 0.5, concrete_edge_breakout: 0.5, pryout: 0.5, bar_rupture: 0, rupture_at_grip: 0, bar_shear: 0,
};

/**
 * Normalises a load or stress to a reference strength: value x (reference / strength)^exponent.
 * @param value load or stress, any unit; @param strength measured strength and @param reference in MPa; @param exponent usually 0 to 0.7
 * @throws RangeError for strengths that are not above 0
 * @example normaliseToStrength(50, 40, 20.7, 0.5).normalised // 35.97
 */
export function normaliseToStrength(value: number, strength: number, reference: number, exponent: number): Normalised {
  if (!(strength > 0) || !(reference > 0)) throw new RangeError(`strength ${String(strength)} and reference ${String(reference)} MPa: expected both above 0`);
  if (!Number.isFinite(exponent)) throw new RangeError(`exponent ${String(exponent)}: expected a finite number`);
  const factor = (reference / strength) ** exponent;
  return { value, normalised: value * factor, factor, exponent, reference };
}

/** An exponent found from tests, with its standard error. */
export interface FittedExponent {
  readonly exponent: number;
  readonly standardError: number;
  readonly n: number;
}

/**
 * The exponent m of load ~ strength^m by least squares of ln load on ln strength.
 * Compare like with like only: same bar, embedment and set-up, or loads already divided by a model without strength.
 * @throws RangeError for fewer than 3 tests, or strengths that do not vary
 */
export function fitStrengthExponent(loads: ArrayLike<number>, strengths: ArrayLike<number>): FittedExponent {
  const x = Array.from(strengths, Math.log);
  const y = Array.from(loads, Math.log);
  const n = x.length;
  if (n < 3 || y.length !== n) throw new RangeError(`a strength exponent needs 3 tests or more with as many strengths: got ${String(y.length)} and ${String(n)}`);
  if (![...x, ...y].every(Number.isFinite)) throw new RangeError("a strength exponent needs loads and strengths above 0: got one that is not");
  const mean = (values: ReadonlyArray<number>): number => values.reduce((a, b) => a + b, 0) / n;
  const [mx, my] = [mean(x), mean(y)];
  const sxx = x.reduce((a, v) => a + (v - mx) ** 2, 0);
  if (!(sxx > 1e-12)) throw new RangeError("the strengths do not vary: expected at least two different ones");
  const exponent = x.reduce((a, v, i) => a + (v - mx) * ((y[i] ?? NaN) - my), 0) / sxx;
  const residual = x.reduce((a, v, i) => a + ((y[i] ?? NaN) - my - exponent * (v - mx)) ** 2, 0);
  return { exponent, standardError: Math.sqrt(residual / (n - 2) / sxx), n };
}

/** A cylinder strength obtained from another specimen, with the uncertainty of the conversion. */
export interface CylinderStrength {
  readonly cylinder_MPa: number;
  readonly factor: number;
  /** Standard uncertainty of the factor, relative. */
  readonly relativeUncertainty: number;
  readonly note: string;
}

/**
 * Factors to cylinder strength and how sure they are. cube_150: 0.80 to 0.83 (EN 206 classes), the middle, half-width as a rectangular
 * distribution; cube_200: 0.85 (Fuchs, Eligehausen, Breen 1995); cube_100: 0.95 of the 150 mm cube on top (common practice, no source).
 */
const TO_CYLINDER: Readonly<Record<Exclude<StrengthBasis, "unknown">, { readonly factor: number; readonly uncertainty: number; readonly note: string }>> = {
  cylinder: { factor: 1, uncertainty: 0, note: "as measured" },
  cube_150: { factor: 0.815, uncertainty: 0.015 / Math.sqrt(3) / 0.815, note: "0.80 to 0.83 of the 150 mm cube (EN 206 classes)" },
  cube_200: { factor: 0.85, uncertainty: 0.02, note: "0.85 of the 200 mm cube (Fuchs, Eligehausen, Breen 1995); uncertainty common practice, no source" },
  cube_100: { factor: 0.815 * 0.95, uncertainty: 0.03, note: "0.95 x 0.815 of the 100 mm cube; common practice, no source" },
};

/**
 * Cylinder strength from a strength on a stated basis; null when the basis is unknown, because then there is nothing to convert by.
 * @example cylinderStrength(50, "cube_150")?.cylinder_MPa // 40.75
 */
export function cylinderStrength(strength_MPa: number, basis: StrengthBasis): CylinderStrength | null {
  if (basis === "unknown") return null;
  const { factor, uncertainty, note } = TO_CYLINDER[basis];
  return { cylinder_MPa: strength_MPa * factor, factor, relativeUncertainty: uncertainty, note };
}
