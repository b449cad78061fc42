/** Indices of two parts that belong together; undefined where one side has no such part. */
export type AlignedPair = readonly [number | undefined, number | undefined];

/**
 * Beyond this many parts on a side (after what is equal at both ends), parts are paired in order.
 */
const MOST_ALIGNED = 1000;

/**
 * Finds which parts of two lists belong together, so that one part more does not make all later
 * ones differ. Lists of equal length are paired in order; else by the longest common subsequence
 * of their kinds, and what lies between two common parts again in order.
 */
export function align(recorded: readonly string[], rerun: readonly string[]): AlignedPair[] {
  if (recorded.length === rerun.length) return recorded.map((_, index) => [index, index]);
  let start = 0;
  while (start < Math.min(recorded.length, rerun.length) && recorded[start] === rerun[start])
    start++;
  let end = 0;
  while (
    end < Math.min(recorded.length, rerun.length) - start &&
    recorded[recorded.length - 1 - end] === rerun[rerun.length - 1 - end]
  )
    end++;
  const anchors = commonParts(
    recorded.slice(start, recorded.length - end),
    rerun.slice(start, rerun.length - end),
  ).map(([a, b]) => [a + start, b + start] as const);
  const fixed = [
    ...Array.from({ length: start }, (_, index) => [index, index] as const),
    ...anchors,
    ...Array.from(
      { length: end },
      (_, index) => [recorded.length - end + index, rerun.length - end + index] as const,
    ),
  ];
  const pairs: AlignedPair[] = [];
  let [a, b] = [0, 0];
  for (const [nextA, nextB] of [...fixed, [recorded.length, rerun.length] as const]) {
    while (a < nextA || b < nextB)
      pairs.push([a < nextA ? a++ : undefined, b < nextB ? b++ : undefined]);
    if (nextA < recorded.length) pairs.push([a++, b++]);
  }
  return pairs;
}

function commonParts(a: readonly string[], b: readonly string[]): [number, number][] {
  if (a.length > MOST_ALIGNED || b.length > MOST_ALIGNED) return [];
  const width = b.length + 1;
  const longest = new Uint16Array((a.length + 1) * width);
  const at = (i: number, j: number): number => longest[i * width + j] ?? 0;
  for (let i = a.length - 1; i >= 0; i--) {
    for (let j = b.length - 1; j >= 0; j--) {
      longest[i * width + j] =
        a[i] === b[j] ? at(i + 1, j + 1) + 1 : Math.max(at(i + 1, j), at(i, j + 1));
    }
  }
  const found: [number, number][] = [];
  for (let i = 0, j = 0; i < a.length && j < b.length;) {
    if (a[i] === b[j]) found.push([i++, j++]);
    else if (at(i + 1, j) >= at(i, j + 1)) i++;
    else j++;
  }
  return found;
}
