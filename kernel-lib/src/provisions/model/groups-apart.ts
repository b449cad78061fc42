import { compileColumns, symbolsOf } from "../../formula";
import { derived, mayMiss, statedColumn, valueAt, type InputColumn } from "../inputs/derived-column";
import type { CodeDefinition, ProvisionDefinition } from "./definition";
import { PART_OF_GROUP, sparingBits } from "./group-split";
import { APART, planLoop } from "./loop-plan";
import { programInput } from "./program-input";
import { programPart } from "./program-part";

/** Where each part of a group stands: its row of the table, and which of the group's rows across and along it is. */
interface Places {
  readonly row: readonly number[];
  readonly columns: Readonly<Record<"apart_x" | "apart_y" | "row_x" | "row_y", readonly number[]>>;
}

/**
 * Takes apart the rows whose bars do not all act together, as the loop over all rows has marked them: each part becomes a row
 * of a table of parts, and what the parts carry is added. All other rows stand as they are.
 * @param inSi a symbol's column in N, mm, MPa
 * @param sizeOf the size of the edition's unit for a symbol
 */
export function takeGroupsApart(code: CodeDefinition, provision: ProvisionDefinition, design: boolean, inSi: (name: string) => InputColumn, sizeOf: (name: string) => number, capacity: Float64Array, flags: Int32Array): void {
  const places = placesOfParts(flags, (side, i) => valueAt(inSi(`n_${side}`), i));
  const n = places.row.length;
  if (n === 0) return;
  const column = partColumns(places, inSi, sizeOf);
  const plan = planLoop(code, provision, design, column, () => 1);
  // The parts of a row have all its flags, also those that follow one that withholds it.
  // A part that needs no check counts beside one that does; whether all are spared is seen when they are together.
  const sparing = sparingBits(provision);
  const whole = { ...plan, first: [], withholds: plan.withholds & ~sparing, flags: plan.flags.filter(({ bit }) => bit !== APART.x && bit !== APART.y) };
  const input = programInput(plan.columns, column, () => 1);
  const [carried, marked] = [new Float64Array(n), new Int32Array(n)];
  compileColumns({ columns: [...input.columns.keys()], lines: input.lines, parts: [programPart(whole, 1)] }, n)(n, [...input.columns.values()], [carried, marked]);
  const force = code.system.inSi.force;
  for (let part = 0; part < n; ) {
    const i = places.row[part]!;
    let [sum, any, all] = [0, 0, -1];
    for (; part < n && places.row[part] === i; part++) {
      sum += carried[part]!;
      any |= marked[part]!;
      all &= marked[part]!;
    }
    // Parts are added in the edition's unit and converted once, as the hand calculation does.
    const together = (any & ~sparing) | (all & sparing);
    capacity[i] = (together & plan.withholds) !== 0 ? NaN : sum * force;
    flags[i] = together;
  }
}

function placesOfParts(flags: Int32Array, count: (side: "x" | "y", i: number) => number): Places {
  const row: number[] = [];
  const columns: Record<keyof Places["columns"], number[]> = { apart_x: [], apart_y: [], row_x: [], row_y: [] };
  for (let i = 0; i < flags.length; i++) {
    const apart = flags[i]! & (APART.x | APART.y);
    if (apart === 0) continue;
    const [x, y] = [(apart & APART.x) !== 0, (apart & APART.y) !== 0];
    const [across, along] = [x ? count("x", i) : 1, y ? count("y", i) : 1];
    for (let k = 0; k < across; k++) {
      for (let l = 0; l < along; l++) {
        row.push(i);
        columns.apart_x.push(Number(x));
        columns.apart_y.push(Number(y));
        columns.row_x.push(k);
        columns.row_y.push(l);
      }
    }
  }
  return { row, columns };
}

/** The symbols of the parts, in the edition's units: those of their group, moved to where the part stands. */
function partColumns({ row, columns }: Places, inSi: (name: string) => InputColumn, sizeOf: (name: string) => number): (name: string) => InputColumn {
  const rows = Int32Array.from(row);
  const gathered = new Map<Float64Array, Float64Array>();
  const gather = (from: Float64Array): Float64Array => {
    const known = gathered.get(from) ?? new Float64Array(rows.length);
    if (!gathered.has(from)) for (let k = 0; k < rows.length; k++) known[k] = from[rows[k]!]!;
    gathered.set(from, known);
    return known;
  };
  const places = Object.fromEntries(Object.entries(columns).map(([name, values]) => [name, statedColumn(name, Float64Array.from(values))]));
  const made = new Map<string, InputColumn>();
  const ofGroup = (name: string): InputColumn => {
    const known = made.get(name);
    if (known !== undefined) return known;
    const column = inSi(name);
    const value = typeof column === "number" ? column : { ...column, columns: new Map([...column.columns].map(([stated, values]) => [stated, gather(values)])) };
    const converted = derived("value / size", { value, size: sizeOf(name) }, mayMiss(value));
    made.set(name, converted);
    return converted;
  };
  return (name) => {
    const formula = PART_OF_GROUP[name];
    if (!formula) return ofGroup(name);
    const symbols = [...symbolsOf(formula)];
    return derived(formula, Object.fromEntries(symbols.map((symbol) => [symbol, places[symbol] ?? ofGroup(symbol)])), symbols.some((symbol) => places[symbol] === undefined && mayMiss(ofGroup(symbol))));
  };
}
