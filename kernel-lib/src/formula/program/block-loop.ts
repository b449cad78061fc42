import { ValueGraph } from "./value-graph";
import { ENGINE_FUNCTIONS, writeLoop, type LoopPart } from "./write-block-loop";
import type { ColumnProgram, ColumnRun, ProgramOutput } from "./column-program";

/** Rows worked through at a time: few enough for all columns of a block to stay near the processor, many enough to pay for the calls. */
const BLOCK = 2048;
/** Bytes from one column of a block to the next; not a power of two, or all columns would compete for the same lines of the cache. */
const STRIDE = BLOCK * 8 + 192;
const PAGE = 65_536;

/**
 * A program as one loop of vector instructions (WebAssembly, two rows at a time) over blocks of rows, in which parts that
 * formulas share are worked out once. Every operation is the IEEE one of the compiled and the walked formula: the same bits.
 * @throws Error where the engine has no WebAssembly
 */
export function compileBlockLoop({ columns, lines, parts }: ColumnProgram): ColumnRun {
  if (machine === undefined) throw new Error("This engine has no WebAssembly; expected compileRowLoops to be asked for.");
  const graph = new ValueGraph();
  const shared = new Map(columns.map((name, k) => [name, graph.column(k)] as const));
  for (const { name, value } of lines) shared.set(name, graph.add(value, shared));
  let place = columns.length;
  const kinds: ProgramOutput["kind"][] = [];
  const count = parts.reduce((sum, { outputs }) => sum + outputs.length, 0);
  const loopParts = parts.map((part): LoopPart => {
    const own = new Map(shared);
    for (const { name, value } of part.lines) own.set(name, graph.add(value, own));
    const when = part.when === undefined ? null : graph.condition(graph.add(part.when, shared));
    const kept = part.outputs.map(({ kind, value, otherwise }) => {
      const traceOffset = (columns.length + count) * STRIDE + kinds.length * 16;
      kinds.push(kind);
      const node = graph.numeric(graph.add(value, own));
      return { kind, node, otherwise: otherwise === undefined ? node : graph.numeric(graph.add(otherwise, shared)), offset: place++ * STRIDE, traceOffset };
    });
    return { when, kept };
  });
  const loop = instantiate(machine, writeLoop(graph.nodes, loopParts, (k) => k * STRIDE));
  return (n, from, into) => {
    const { numbers, integers } = reserve(machine, place * STRIDE + kinds.length * 16);
    for (let start = 0; start < n; start += BLOCK) {
      const end = Math.min(n, start + BLOCK);
      from.forEach((column, k) => numbers.set(column.subarray(start, end), (k * STRIDE) / 8));
      loop((end - start) * 8);
      into.forEach((output, k) => {
        const at = (columns.length + k) * STRIDE;
        if (output instanceof Float64Array) return output.set(numbers.subarray(at / 8, at / 8 + end - start), start);
        const trace = (place * STRIDE + k * 16) / 4;
        // Memory of a column of nothing but zeros is never touched.
        if ((integers[trace]! | integers[trace + 1]!) !== 0) output.set(integers.subarray(at / 4, at / 4 + end - start), start);
      });
    }
  };
}

interface WebAssemblyOfNode {
  readonly Memory: new (size: { initial: number }) => { readonly buffer: ArrayBuffer; grow(pages: number): number };
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: { readonly run: (this: void, bytes: number) => void } };
}

/** The part of the engine's interface that is used here; the types of Node do not declare it. Absent where the engine may not compile. */
const machine = (globalThis as unknown as { readonly WebAssembly?: WebAssemblyOfNode }).WebAssembly;

/** Whether this engine runs vector loops at all. */
export const HAS_VECTOR_LOOPS = machine !== undefined;

interface Room {
  readonly memory: InstanceType<WebAssemblyOfNode["Memory"]>;
  numbers: Float64Array;
  integers: Int32Array;
}

let room: Room | null = null;

/** One room of memory serves all programs in turn: no two of them run at the same time. */
function reserve(engine: WebAssemblyOfNode, bytes: number): Room {
  const memory = room?.memory ?? new engine.Memory({ initial: 1 });
  const lacking = Math.ceil((bytes - memory.buffer.byteLength) / PAGE);
  if (lacking > 0) memory.grow(lacking);
  if (room?.numbers.buffer !== memory.buffer) room = { memory, numbers: new Float64Array(memory.buffer), integers: new Int32Array(memory.buffer) };
  return room;
}

/** The same instructions again give the same function, which the engine has already made fast: a study predicts many times. */
const made = new Map<string, (bytes: number) => void>();
const MOST_KEPT = 200;

function instantiate(engine: WebAssemblyOfNode, bytes: Uint8Array): (bytes: number) => void {
  const key = Buffer.from(bytes).toString("latin1");
  const known = made.get(key);
  if (known) return known;
  if (made.size >= MOST_KEPT) made.clear();
  const numbers = Object.fromEntries(ENGINE_FUNCTIONS.map(({ name, run }) => [name, run]));
  const loop = new engine.Instance(new engine.Module(bytes), { rows: { memory: reserve(engine, 0).memory }, numbers }).exports.run;
  made.set(key, loop);
  return loop;
}
