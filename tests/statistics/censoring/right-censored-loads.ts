/**
 * Twelve invented loads in kN, four of them only lower bounds; the R calls in the tests use the
 * same numbers.
 */
export const values = [92.1, 101.4, 88.3, 110.2, 95.7, 99.9, 104.5, 87.2, 120.3, 93.8, 98.6, 107.7];
export const censored = [
  false,
  true,
  false,
  false,
  false,
  true,
  false,
  false,
  true,
  false,
  false,
  true,
];
export const clusters = ["a", "a", "a", "b", "b", "b", "c", "c", "c", "d", "d", "d"];
