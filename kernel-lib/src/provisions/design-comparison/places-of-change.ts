const SECTIONS = 16;

/**
 * Places along a line at which a sign or flag changes, each bracketed to 1e-10 of the place. A
 * place where one of the two sides is not a number is no change, and where two lines that had met
 * part again neither.
 * @param line rising places that are looked at first
 * @param look signs at several places at once
 * @example changesBetween([0.5, 1, 3], (xs) => xs.map((x) => Math.sign(x - 2))) // about [2]
 */
export function changesBetween(
  line: readonly number[],
  look: (places: readonly number[]) => readonly number[],
): number[] {
  const signs = look(line);
  const changes: number[] = [];
  line.slice(1).forEach((place, k) => {
    let [low, high] = [line[k] ?? NaN, place];
    const [sign, end] = [signs[k] ?? NaN, signs[k + 1] ?? NaN];
    if (Number.isNaN(sign) || Number.isNaN(end) || sign === 0 || sign === end) return;
    while (high - low > 1e-10 * high) {
      const inner = Array.from(
        { length: SECTIONS - 1 },
        (_, s) => low + ((high - low) * (s + 1)) / SECTIONS,
      );
      const found = look(inner).findIndex((one) => one !== sign);
      [low, high] = [
        found === 0 ? low : (inner.at(found < 0 ? -1 : found - 1) ?? low),
        found < 0 ? high : (inner[found] ?? high),
      ];
    }
    changes.push((low + high) / 2);
  });
  return changes;
}
