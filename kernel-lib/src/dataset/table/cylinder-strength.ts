import type { StrengthBasis } from "../schema/categories";

/** How a concrete strength on one basis is taken to the cylinder strength that the codes use. */
export interface StrengthRule {
  /** Factor to the 150 x 300 mm cylinder strength. */
  readonly factor: number;
  /** Standard uncertainty of the factor, relative to it. */
  readonly relativeUncertainty: number;
  readonly says: string;
}

/** A half-width of a share, taken as a rectangular distribution, as a standard uncertainty (JCGM 100:2008, 4.3.7). */
const rectangular = (halfWidth: number): number => halfWidth / Math.sqrt(3);

/**
 * Factors from the strength as measured to the 150 x 300 mm cylinder strength.
 *
 * | basis | factor | source |
 * |---|---|---|
 * | cylinder | 1 | |
 * | cube_150 | 0.82 | EN 206 classes run from 0.78 (35/45) to 0.83 (50/60); within 6 % |
 * | cube_200 | 0.85 | concrete capacity method: f'c = 0.85 fcc,200; uncertainty common practice, no source |
 * | cube_100 | 0.78 | cube_150 is about 0.95 of cube_100; common practice, no source; +-6 % |
 *
 * `unknown` has no factor: nothing is converted unless the reader of the data says what to assume.
 */
export const TO_CYLINDER: Readonly<Record<Exclude<StrengthBasis, "unknown">, StrengthRule>> = {
  cylinder: { factor: 1, relativeUncertainty: 0, says: "cylinder strength as measured" },
  cube_150: { factor: 0.82, relativeUncertainty: rectangular(0.06), says: "0.82 x 150 mm cube strength (EN 206 classes, within 6 %)" },
  cube_200: { factor: 0.85, relativeUncertainty: rectangular(0.06), says: "0.85 x 200 mm cube strength (concrete capacity method)" },
  cube_100: { factor: 0.78, relativeUncertainty: rectangular(0.06), says: "0.78 x 100 mm cube strength (common practice, no source; within 6 %)" },
};

/** A cylinder strength obtained from another specimen, with the uncertainty of the conversion. */
export interface CylinderStrength {
  readonly cylinder_MPa: number;
  readonly factor: number;
  /** Standard uncertainty of the factor, relative. */
  readonly relativeUncertainty: number;
  readonly note: string;
}

/**
 * Cylinder strength from a strength on a stated basis; null when the basis is unknown, because then there is nothing to convert by.
 * @example cylinderStrength(50, "cube_150")?.cylinder_MPa // 41
 */
export function cylinderStrength(strength_MPa: number, basis: StrengthBasis): CylinderStrength | null {
  if (basis === "unknown") return null;
  const { factor, relativeUncertainty, says } = TO_CYLINDER[basis];
  return { cylinder_MPa: strength_MPa * factor, factor, relativeUncertainty, note: says };
}
