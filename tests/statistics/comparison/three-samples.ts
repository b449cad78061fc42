/** Invented samples; R is given the same. */
export const a = [42, 45, 51, 47, 44, 38.5];
export const b = [40, 39, 37, 44.5];
export const c = [50, 52, 48, 55.5];

/** The result where it was computed; throws its reading where not. */
export function ok<T extends { status: string; reading: string }>(
  result: T,
): Extract<T, { status: "ok" }> {
  if (result.status !== "ok") throw new Error(result.reading);
  return result as Extract<T, { status: "ok" }>;
}
