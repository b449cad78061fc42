/** Cells along each axis: with cells of 0.5 % they reach from 1e-9 to 1e9. */
const CELLS = 8192;

/** Rows that may lie near others: each row's kind and group, and three numbers that must agree. */
export interface NearRows {
  /** Only rows of one kind are near each other. */
  readonly kinds: ArrayLike<number>;
  /** Rows of one group are not looked at beside each other. */
  readonly groups: ArrayLike<number>;
  readonly numbers: readonly [ArrayLike<number>, ArrayLike<number>, ArrayLike<number>];
  /** Relative difference up to which two numbers may agree. */
  readonly within: number;
}

/**
 * Finds, for a row, the rows of other groups that may agree with it: those in its own and the
 * neighboring cells of a grid over the logarithms, as wide as numbers may differ. The work grows
 * with the rows and with what is really near, not with the pairs of rows.
 * @returns a function that visits every such row, and some beyond, in no order; who calls it
 *   compares the numbers
 */
export function nearCells({
  kinds,
  groups,
  numbers,
  within,
}: NearRows): (row: number, visit: (other: number) => void) => void {
  const width = -Math.log1p(-within) * 1.000001;
  const cell = (value: number): number =>
    value > 0
      ? Math.min(CELLS - 2, Math.max(1, Math.floor(Math.log(value) / width) + CELLS / 2))
      : 0;
  const keys = Float64Array.from(kinds, (kind, i) =>
    numbers.reduce((key, column) => key * CELLS + cell(column[i] ?? NaN), kind),
  );
  const order = Uint32Array.from(keys, (_, i) => i).sort((a, b) => keys[a]! - keys[b]! || a - b);
  // Each cell in use, where its rows begin, and its group where it has only one.
  const places = order.reduce<number[]>(
    (found, row, place) =>
      place > 0 && keys[row] === keys[order[place - 1]!] ? found : (found.push(place), found),
    [],
  );
  const used = Float64Array.from(places, (place) => keys[order[place]!]!);
  const end = (k: number): number => places[k + 1] ?? order.length;
  const sole = Int32Array.from(places, (place, k) => {
    const group = groups[order[place]!]!;
    for (let next = place + 1; next < end(k); next += 1)
      if (groups[order[next]!] !== group) return -1;
    return group;
  });
  return (row, visit) => {
    const group = groups[row]!;
    for (let a = -1; a <= 1; a += 1) {
      for (let b = -1; b <= 1; b += 1) {
        // Three neighbors along the last axis follow each other.
        const middle = keys[row]! + (a * CELLS + b) * CELLS;
        for (
          let k = firstFrom(used, middle - 1);
          k < used.length && used[k]! <= middle + 1;
          k += 1
        ) {
          if (sole[k] === group) continue;
          for (let place = places[k]!; place < end(k); place += 1)
            if (groups[order[place]!] !== group) visit(order[place]!);
        }
      }
    }
  };
}

/** Place of the first value of an ascending list that is not below another. */
function firstFrom(ascending: Float64Array, value: number): number {
  let [low, high] = [0, ascending.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (ascending[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}
