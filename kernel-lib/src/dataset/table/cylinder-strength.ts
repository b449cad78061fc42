import type { StrengthBasis } from "../schema/categories";

/** How a concrete strength on one basis is taken to the cylinder strength that the codes use. */
export interface StrengthRule {
  /** Factor to the 150 x 300 mm cylinder strength. */
  readonly factor: number;
  /**
   * Relative half-width within which the factor is believed to lie; 0 where nothing is converted.
   */
  readonly within: number;
  /**
   * The half-width taken as a rectangular distribution: relative standard uncertainty of the factor
   * (JCGM 100:2008, 4.3.7).
   */
  readonly relativeUncertainty: number;
  readonly says: string;
}

const rule = (factor: number, within: number, says: string): StrengthRule => ({
  factor,
  within,
  relativeUncertainty: within / Math.sqrt(3),
  says,
});

/**
 * Factors from the strength as measured to the 150 x 300 mm cylinder strength.
 *
 * | basis | factor | source |
 * |---|---|---|
 * | cylinder | 1 | |
 * | cube_150 | 0.82 | EN 206 classes run from 0.78 (35/45) to 0.83 (50/60); within 6 % |
 * | cube_200 | 0.85 | concrete capacity method: f'c = 0.85 fcc,200; +-6 % by common practice, no source |
 * | cube_100 | 0.78 | cube_150 is about 0.95 of cube_100; common practice, no source; +-6 % |
 *
 * | cylinder_assumed | 1 | an assumption, not a conversion: where no specimen is stated, a cylinder gives the largest capacity and so the least ratio of test to predicted; a 100 mm cube, the other end of what laboratories use, would give 0.78. Within 22 % below |
 *
 * `unknown` has no factor: nothing is converted unless the reader of the data says what to assume.
 */
export const TO_CYLINDER: Readonly<Record<Exclude<StrengthBasis, "unknown">, StrengthRule>> = {
  cylinder: rule(1, 0, "cylinder strength as measured"),
  cube_150: rule(0.82, 0.06, "0.82 x 150 mm cube strength (EN 206 classes, within 6 %)"),
  cube_200: rule(
    0.85,
    0.06,
    "0.85 x 200 mm cube strength (concrete capacity method; within 6 % by common practice, no source)",
  ),
  cube_100: rule(
    0.78,
    0.06,
    "0.78 x 100 mm cube strength (common practice, no source; within 6 %)",
  ),
  // Up to 22 % too high and never too low: within / sqrt(3) is then the root mean square error
  // about the assumed value.
  cylinder_assumed: rule(
    1,
    0.22,
    "taken for a cylinder strength, since no specimen is stated (a cube's would be up to 22 % less)",
  ),
};
