/**
 * Blocks of rows that are equal in all columns but some, found by two sums of hashed cells: leaving
 * a column out subtracts it. What the sums put together is compared cell by cell, so that a block
 * holds equal rows only.
 */
export class RowsAlike {
  readonly #columns: ReadonlyMap<string, ArrayLike<number>>;
  readonly #sums: readonly [Int32Array, Int32Array];

  /**
   * @param columns numbers or codes of words, by name, all of one length; a missing number is a
   *   value of its own
   */
  constructor(columns: ReadonlyMap<string, ArrayLike<number>>) {
    const length = [...columns.values()][0]?.length ?? 0;
    // A column with the same in every row keeps no two apart.
    this.#columns = new Map([...columns].filter(([, column]) => varies(column)));
    this.#sums = [new Int32Array(length), new Int32Array(length)];
    for (const [k, column] of [...this.#columns.values()].entries())
      addHashes(this.#sums, column, k, 1);
  }

  /**
   * Rows equal in all columns but those named, each block in order of its rows; rows that nothing
   * equals are left out.
   */
  but(without: readonly string[]): number[][] {
    const sums = [this.#sums[0].slice(), this.#sums[1].slice()] as const;
    for (const [k, [name, column]] of [...this.#columns].entries())
      if (without.includes(name)) addHashes(sums, column, k, -1);
    const compared = [...this.#columns]
      .filter(([name]) => !without.includes(name))
      .map(([, column]) => column);
    const alike = (i: number, j: number): boolean =>
      compared.every(
        (column) => column[i] === column[j] || (Number.isNaN(column[i]) && Number.isNaN(column[j])),
      );
    return chained(sums)
      .map((rows) => rows.filter((i) => alike(i, rows[0]!)))
      .filter((block) => block.length > 1);
  }
}

/**
 * Rows of equal sums, two and more, by a table with open places: each place keeps its first row and
 * a chain of the later ones.
 */
function chained([one, other]: readonly [Int32Array, Int32Array]): number[][] {
  const size = 2 ** Math.ceil(Math.log2(2 * one.length + 2));
  const [first, last] = [new Int32Array(size).fill(-1), new Int32Array(size)];
  const next = new Int32Array(one.length).fill(-1);
  for (let i = 0; i < one.length; i += 1) {
    let place = (one[i]! >>> 0) & (size - 1);
    while (
      first[place]! >= 0 &&
      (one[first[place]!] !== one[i] || other[first[place]!] !== other[i])
    )
      place = (place + 1) & (size - 1);
    if (first[place]! < 0) first[place] = i;
    else next[last[place]!] = i;
    last[place] = i;
  }
  const groups: number[][] = [];
  for (const begin of first) {
    if (begin < 0 || next[begin]! < 0) continue;
    const rows = [];
    for (let i = begin; i >= 0; i = next[i]!) rows.push(i);
    groups.push(rows);
  }
  return groups.sort((a, b) => a[0]! - b[0]!);
}

function varies(column: ArrayLike<number>): boolean {
  for (let i = 1; i < column.length; i += 1) if (!Object.is(column[i], column[0])) return true;
  return false;
}

const NUMBER = new Float64Array(1);
const BITS = new Uint32Array(NUMBER.buffer);

/** Adds a column's hashes to both sums, or takes them away. */
function addHashes(
  [one, other]: readonly [Int32Array, Int32Array],
  column: ArrayLike<number>,
  place: number,
  sign: 1 | -1,
): void {
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
