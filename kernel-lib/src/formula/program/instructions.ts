/** Bytes of WebAssembly, the W3C standard for portable machine code that Node carries: only what the generated loops use. */
export type Bytes = readonly number[];

/** A whole number in the variable length of the format (LEB128). */
export function unsigned(value: number): number[] {
  const bytes: number[] = [];
  do {
    const rest = value >>> 7;
    bytes.push((value & 0x7f) | (rest === 0 ? 0 : 0x80));
    value = rest;
  } while (value !== 0);
  return bytes;
}

const vector = (code: number, ...immediate: number[]): number[] => [0xfd, ...unsigned(code), ...immediate];
const doubleBytes = (value: number): number[] => [...new Uint8Array(Float64Array.of(value).buffer)];

/** Two rows at a time stand in one vector of two doubles; a condition is a vector of all ones or all zeros. */
export const VECTOR = {
  load: (offset: number) => vector(0, 4, ...unsigned(offset)),
  store: (offset: number) => vector(11, 4, ...unsigned(offset)),
  storeFirstHalf: (offset: number) => vector(0x5b, 3, ...unsigned(offset), 0),
  number: (value: number) => vector(12, ...doubleBytes(value), ...doubleBytes(value)),
  condition: (holds: boolean) => vector(12, ...new Array<number>(16).fill(holds ? 0xff : 0)),
  both: vector(0x14), row: (k: number) => vector(0x21, k), replaceRow: (k: number) => vector(0x22, k),
  equal: vector(0x47), unequal: vector(0x48), less: vector(0x49), greater: vector(0x4a), lessOrEqual: vector(0x4b), greaterOrEqual: vector(0x4c),
  not: vector(0x4d), and: vector(0x4e), or: vector(0x50), select: vector(0x52), anyTrue: vector(0x53),
  abs: vector(0xec), negative: vector(0xed), sqrt: vector(0xef), add: vector(0xf0), subtract: vector(0xf1), multiply: vector(0xf2), divide: vector(0xf3), min: vector(0xf4), max: vector(0xf5),
  toIntegers: vector(0xfc),
} as const;

export const LOCAL = { get: (k: number) => [0x20, ...unsigned(k)], set: (k: number) => [0x21, ...unsigned(k)], tee: (k: number) => [0x22, ...unsigned(k)] } as const;
export const CALL = (k: number): number[] => [0x10, ...unsigned(k)];
export const BRANCH_IF = (depth: number): number[] => [0x0d, depth];
export const LOOP = [0x03, 0x40], IF = [0x04, 0x40], ELSE = [0x05], END = [0x0b];
export const INTEGER = { constant: (value: number) => [0x41, ...unsigned(value)], add: [0x6a], lessUnsigned: [0x49], half: [0x41, 1, 0x76] } as const;

const I32 = 0x7f, F64 = 0x7c, V128 = 0x7b;
const text = (name: string): number[] => [name.length, ...name.split("").map((letter) => letter.charCodeAt(0))];
const list = (entries: readonly Bytes[]): number[] => [...unsigned(entries.length), ...entries.flat()];

function section(id: number, content: Bytes): Bytes {
  return [id, ...unsigned(content.length), ...content];
}

/**
 * A module of one function `run(bytes)` over an imported memory `rows.memory`, with functions of one or two numbers imported from `numbers`.
 * @param vectors how many vector variables the body has; they follow the parameter (0) and the counter (1)
 */
export function moduleBytes(body: Bytes, vectors: number, imported: readonly { readonly name: string; readonly takes: 1 | 2 }[]): Uint8Array {
  const code = [...list([[1, I32], [...unsigned(vectors), V128]]), ...body, ...END];
  const functions = imported.map(({ name, takes }) => [...text("numbers"), ...text(name), 0, takes]);
  return Uint8Array.from([
    0x00, 0x61, 0x73, 0x6d, 1, 0, 0, 0,
    ...section(1, list([[0x60, 1, I32, 0], [0x60, 1, F64, 1, F64], [0x60, 2, F64, F64, 1, F64]])),
    ...section(2, list([[...text("rows"), ...text("memory"), 2, 0, 1], ...functions])),
    ...section(3, list([[0]])),
    ...section(7, list([[...text("run"), 0, ...unsigned(imported.length)]])),
    ...section(10, list([[...unsigned(code.length), ...code]])),
  ]);
}
