import type { GraphNode, GraphOperation } from "./value-graph";
import { BRANCH_IF, CALL, ELSE, END, IF, INTEGER, LOCAL, LOOP, moduleBytes, VECTOR, type Bytes } from "./instructions";

/** A value kept for every row: at which byte of a block, and whether as a whole number. */
export interface KeptValue {
  readonly kind: "number" | "integer";
  readonly node: number;
  /** What is kept where the part's condition holds in none of the rows at hand. */
  readonly otherwise: number;
  readonly offset: number;
  /** Where the or of all bits of an integer column is left: zeros say that the block has nothing but zeros. */
  readonly traceOffset: number;
}

/** Values that are worked out only where a condition holds in one of the rows at hand (null: always). */
export interface LoopPart {
  readonly when: number | null;
  readonly kept: readonly KeptValue[];
}

/** Functions without an instruction of their own are the engine's, so that the bits are those of every other form of a formula. */
export const ENGINE_FUNCTIONS = [
  { name: "pow", takes: 2, run: Math.pow }, { name: "exp", takes: 1, run: Math.exp }, { name: "log", takes: 1, run: Math.log }, { name: "sin", takes: 1, run: Math.sin }, { name: "cos", takes: 1, run: Math.cos },
] as const;

const ENGINE_NAME: Readonly<Partial<Record<GraphOperation, string>>> = { power: "pow", exp: "exp", ln: "log", sin: "sin", cos: "cos" };
const INSTRUCTION: Readonly<Partial<Record<GraphOperation, Bytes>>> = {
  "+": VECTOR.add, "-": VECTOR.subtract, "*": VECTOR.multiply, "/": VECTOR.divide, min: VECTOR.min, max: VECTOR.max, sqrt: VECTOR.sqrt, abs: VECTOR.abs, negative: VECTOR.negative,
  "<": VECTOR.less, "<=": VECTOR.lessOrEqual, ">": VECTOR.greater, ">=": VECTOR.greaterOrEqual, "==": VECTOR.equal, "!=": VECTOR.unequal, "&&": VECTOR.and, "||": VECTOR.or, not: VECTOR.not,
};
const [BYTES, AT] = [0, 1];

/** Writes the loop over a block, two rows at a time; what several values share is worked out once. */
export function writeLoop(nodes: readonly GraphNode[], parts: readonly LoopPart[], columnOffset: (column: number) => number): Uint8Array {
  const uses = countUses(nodes, parts);
  const variables = new Map<string, number>();
  const constants = new Map<number, Bytes>();
  const code: number[] = [];
  let ready = new Set<number>();
  const put = (...instructions: readonly Bytes[]): void => instructions.forEach((bytes) => bytes.forEach((byte) => code.push(byte)));
  const variable = (name: string): number => {
    const place = variables.get(name) ?? variables.size + 2;
    variables.set(name, place);
    return place;
  };
  const constant = (name: string, value: Bytes): Bytes => {
    constants.set(variable(name), value);
    return LOCAL.get(variable(name));
  };

  const push = (k: number): void => {
    const node = nodes[k] as GraphNode;
    if (node.operation === "number") return put(constant(`v${k}`, node.condition ? VECTOR.condition(node.value !== 0) : VECTOR.number(node.value)));
    if (ready.has(k)) return put(LOCAL.get(variable(`v${k}`)));
    workOut(node, k);
    if ((uses.get(k) ?? 0) < 2) return;
    ready.add(k);
    put(LOCAL.tee(variable(`v${k}`)));
  };

  const workOut = ({ operation, of, value }: GraphNode, k: number): void => {
    const engineName = ENGINE_NAME[operation];
    if (engineName !== undefined) return callForEachRow(engineName, of, k);
    if (operation === "column") return put(LOCAL.get(AT), VECTOR.load(columnOffset(value)));
    const [first, second, third] = of as [number, number, number];
    switch (operation) {
      case "holds":
        push(first);
        return put(VECTOR.abs, constant("zero", VECTOR.number(0)), VECTOR.greater);
      case "count":
        push(first);
        return put(constant("one", VECTOR.number(1)), VECTOR.and);
      case "blank":
        // A vector of all ones is a NaN, and stays one whatever it is joined with.
        [second, first].forEach(push);
        return put(VECTOR.or);
      case "if":
        if (isZero(nodes[third])) return [second, first].forEach(push), put(VECTOR.and);
        [second, third, first].forEach(push);
        return put(VECTOR.select);
      default:
        of.forEach(push);
        return put(INSTRUCTION[operation] ?? []);
    }
  };

  const callForEachRow = (name: string, of: readonly number[], k: number): void => {
    const operands = of.map((operand, number) => {
      push(operand);
      put(LOCAL.set(variable(`operand ${number} of v${k}`)));
      return variable(`operand ${number} of v${k}`);
    });
    for (const row of [0, 1]) {
      for (const operand of operands) put(LOCAL.get(operand), VECTOR.row(row));
      put(CALL(ENGINE_FUNCTIONS.findIndex((engine) => engine.name === name)), row === 0 ? VECTOR.both : VECTOR.replaceRow(1));
    }
  };

  const keep = ({ kind, offset, traceOffset }: KeptValue, node: number): void => {
    if (kind === "number") return put(LOCAL.get(AT)), push(node), put(VECTOR.store(offset));
    const [integers, seen] = [variable("integers"), variable(`seen ${traceOffset}`)];
    push(node);
    put(VECTOR.toIntegers, LOCAL.tee(integers), LOCAL.get(seen), VECTOR.or, LOCAL.set(seen));
    put(LOCAL.get(AT), INTEGER.half, LOCAL.get(integers), VECTOR.storeFirstHalf(offset));
  };

  for (const { when, kept } of parts) {
    if (when === null) {
      for (const value of kept) keep(value, value.node);
      continue;
    }
    push(when);
    put(VECTOR.anyTrue);
    // What is worked out on one side only is not there for what follows.
    const before = new Set(ready);
    put(IF);
    for (const value of kept) keep(value, value.node);
    put(ELSE);
    ready = new Set(before);
    for (const value of kept) keep(value, value.otherwise);
    put(END);
    ready = before;
  }
  const beginning = [...constants].flatMap(([place, value]) => [...value, ...LOCAL.set(place)]);
  const next = [...LOCAL.get(AT), ...INTEGER.constant(16), ...INTEGER.add, ...LOCAL.tee(AT), ...LOCAL.get(BYTES), ...INTEGER.lessUnsigned, ...BRANCH_IF(0)];
  const traces = parts.flatMap(({ kept }) => kept).filter(({ kind }) => kind === "integer")
    .flatMap(({ traceOffset }) => [...INTEGER.constant(0), ...LOCAL.get(variable(`seen ${traceOffset}`)), ...VECTOR.store(traceOffset)]);
  return moduleBytes([...beginning, ...LOOP, ...code, ...next, ...END, ...traces], variables.size, ENGINE_FUNCTIONS);
}

function isZero(node: GraphNode | undefined): boolean {
  return node?.operation === "number" && Object.is(node.value, 0);
}

/** How often each node that is needed at all is asked for. */
function countUses(nodes: readonly GraphNode[], parts: readonly LoopPart[]): ReadonlyMap<number, number> {
  const uses = new Map<number, number>();
  const count = (k: number): void => {
    const known = uses.get(k) ?? 0;
    uses.set(k, known + 1);
    if (known === 0) nodes[k]?.of.forEach(count);
  };
  for (const { when, kept } of parts) {
    if (when !== null) count(when);
    for (const { node, otherwise } of kept) [node, otherwise].forEach(count);
  }
  return uses;
}
