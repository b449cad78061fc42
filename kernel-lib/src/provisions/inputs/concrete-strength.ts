/** How a concrete strength is taken to the cylinder strength that the codes use. */
export interface StrengthRule {
  readonly factor: number;
  /** Relative half-width within which the factor is believed to lie; 0 where nothing is converted. */
  readonly within: number;
  readonly says: string;
}

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
 * `unknown` has no factor: a row of unknown basis is not predicted unless the reader of the data says what to assume.
 */
export const CYLINDER_FACTOR: Readonly<Record<string, StrengthRule>> = {
  cylinder: { factor: 1, within: 0, says: "cylinder strength as measured" },
  cube_150: { factor: 0.82, within: 0.06, says: "0.82 x 150 mm cube strength (EN 206 classes, within 6 %)" },
  cube_200: { factor: 0.85, within: 0.06, says: "0.85 x 200 mm cube strength (concrete capacity method; within 6 % by common practice, no source)" },
  cube_100: { factor: 0.78, within: 0.06, says: "0.78 x 100 mm cube strength (common practice, no source; within 6 %)" },
};
