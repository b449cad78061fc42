/** A straight line a + b x. */
export interface Line {
  readonly intercept: number;
  readonly slope: number;
}

/**
 * The straight line that lies nowhere above the points and is highest at `at`: the edge of their
 * lower convex hull there.
 * @param x ascending, at least two different values; `y` as long
 * @example lineBelow([1, 2, 3], [1, 0.6, 0.5], 2)
 */
export function lineBelow(x: readonly number[], y: readonly number[], at: number): Line {
  const hull: number[] = [];
  const value = (list: readonly number[], i: number | undefined): number => list[i ?? 0] ?? NaN;
  for (let i = 0; i < x.length; i++) {
    for (; hull.length >= 2; hull.pop()) {
      const [a, b] = [hull[hull.length - 2], hull[hull.length - 1]];
      const turn =
        (value(x, b) - value(x, a)) * (value(y, i) - value(y, a)) -
        (value(y, b) - value(y, a)) * (value(x, i) - value(x, a));
      if (turn > 0) break;
    }
    hull.push(i);
  }
  const end = Math.max(
    1,
    hull.findIndex((i) => value(x, i) >= at),
  );
  const [from, to] = [hull[end - 1], hull[end]];
  const slope = (value(y, to) - value(y, from)) / (value(x, to) - value(x, from));
  return { intercept: value(y, from) - slope * value(x, from), slope };
}
