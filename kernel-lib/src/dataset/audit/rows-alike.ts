/**
 * Blocks of rows that are equal in all columns but some, found by two sums of hashed cells: leaving a column out subtracts it. What
 * the sums put together is compared cell by cell, so that a block holds equal rows only.
 */
export class RowsAlike {
  readonly #columns: ReadonlyMap<string, ArrayLike<number>>;
  readonly #sums: readonly [Int32Array, Int32Array];

  /** @param columns numbers or codes of words, by name, all of one length; a missing number is a value of its own */
  constructor(columns: ReadonlyMap<string, ArrayLike<number>>) {
    const length = [...columns.values()][0]?.length ?? 0;
    this.#columns = columns;
    this.#sums = [new Int32Array(length), new Int32Array(length)];
    for (const [k, column] of [...columns.values()].entries()) addHashes(this.#sums, column, k, 1);
  }

  /** Rows equal in all columns but those named, each block in order of its rows; rows that nothing equals are left out. */
  but(without: readonly string[]): number[][] {
    const sums = [this.#sums[0].slice(), this.#sums[1].slice()] as const;
    for (const [k, [name, column]] of [...this.#columns].entries()) if (without.includes(name)) addHashes(sums, column, k, -1);
    const keys = Float64Array.from(sums[0], (sum, i) => (sum >>> 0) * 2 ** 21 + (sums[1][i]! >>> 11));
    const order = Uint32Array.from(keys, (_, i) => i).sort((a, b) => keys[a]! - keys[b]! || a - b);
    const compared = [...this.#columns].filter(([name]) => !without.includes(name)).map(([, column]) => column);
    const blocks: number[][] = [];
    for (let from = 0, to = 1; from < order.length; from = to, to += 1) {
      while (to < order.length && keys[order[to]!] === keys[order[from]!]) to += 1;
      if (to - from < 2) continue;
      const first = order[from]!;
      const block = [...order.subarray(from, to)].filter((i) => compared.every((column) => column[i] === column[first] || (Number.isNaN(column[i]) && Number.isNaN(column[first]))));
      if (block.length > 1) blocks.push(block);
    }
    return blocks.sort((a, b) => a[0]! - b[0]!);
  }
}

const NUMBER = new Float64Array(1);
const BITS = new Uint32Array(NUMBER.buffer);

/** Adds a column's hashes to both sums, or takes them away. */
function addHashes([one, other]: readonly [Int32Array, Int32Array], column: ArrayLike<number>, place: number, sign: 1 | -1): void {
  for (let i = 0; i < one.length; i += 1) {
    const value = column[i]!;
    // Zero has two signs and a missing number many forms; each counts as one value.
    NUMBER[0] = Number.isNaN(value) ? 0.1234567890123 : value + 0;
    one[i]! += sign * hash(0x9e3779b1 + 2 * place);
    other[i]! += sign * hash(0x7f4a7c15 + 2 * place);
  }
}

/** A 32-bit mix of the number's bits (the final steps of MurmurHash3, in the public domain). */
function hash(salt: number): number {
  let mixed = Math.imul((BITS[0]! ^ salt) >>> 0, 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13) ^ BITS[1]!, 0xc2b2ae35);
  mixed = Math.imul(mixed ^ (mixed >>> 16) ^ salt, 0x85ebca6b);
  return mixed ^ (mixed >>> 15);
}
