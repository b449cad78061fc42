import { Specimens, type Readings, type TestColumns } from "../inputs/prepare";
import { INPUTS, isInput } from "../inputs/catalogue";
import { APART, compileLoop, symbolsRead, type InputColumn } from "./compile";
import { requireOffered, type CodeDefinition, type Level, type ProvisionDefinition } from "./definition";
import { rowEvaluator, type Arguments, type RowEvaluator } from "./evaluate-row";
import { groupCapacity } from "./group-split";
import type { Quantity } from "./unit-system";

/** How a code is applied: the level, the options it offers (N, mm, MPa) and the readings of the data. */
export interface PredictionSettings {
  readonly level?: Level;
  readonly options?: Readonly<Record<string, number>>;
  readonly readings?: Readings;
}

/** The capacities of one provision for every row: N, NaN where withheld, and the flags that say why. */
export interface ProvisionColumn {
  readonly provision: ProvisionDefinition;
  readonly capacity: Float64Array;
  readonly flags: Int32Array;
}

/** All capacities of one code for every row of a table. */
export interface CodePrediction {
  readonly code: CodeDefinition;
  readonly level: Level;
  readonly specimens: Specimens;
  readonly settings: PredictionSettings;
  readonly columns: readonly ProvisionColumn[];
  /** Provisions that state nothing at this level. */
  readonly unstated: readonly ProvisionDefinition[];
}

/**
 * Predicts the capacity of every provision of a code for every row of a table.
 *
 * @param tests table of tests in the columns of the data contract
 * @returns capacities in N; a withheld one is NaN and `reasonsAt` says why
 * @throws Error for an option the code does not offer
 * @example predict(code("aci318-19"), tests, { level: "nominal", options: { supplementary_reinforcement: 1 } })
 */
export function predict(code: CodeDefinition, tests: TestColumns, settings: PredictionSettings = {}): CodePrediction {
  const level = settings.level ?? "nominal";
  requireOffered(code, Object.keys(settings.options ?? {}));
  const specimens = new Specimens(tests, level, settings.readings ?? {});
  const stated = code.provisions.filter((provision) => provision.levels.includes(level));
  const columns = predictColumns(code, stated, specimens, settings);
  return { code, level, specimens, settings, columns, unstated: code.provisions.filter((provision) => !stated.includes(provision)) };
}

/** Rows worked through at a time: few enough for all converted columns to stay near the processor, many enough to pay for the calls. */
const BLOCK = 2048;

/** The loops of all provisions, block by block of rows; a column is converted to the edition's units once a block. */
function predictColumns(code: CodeDefinition, stated: readonly ProvisionDefinition[], specimens: Specimens, settings: PredictionSettings): ProvisionColumn[] {
  const n = specimens.length;
  const edition = editionColumns(code, settings, specimens);
  const design = specimens.level === "design";
  const work = stated.map((provision) => ({ provision, loop: compileLoop(code, provision, design, (name) => edition.column(name)), capacity: new Float64Array(n), flags: new Int32Array(n) }));
  const inputs = work.map(({ loop }) => loop.columns.map((name) => edition.converted(name)));
  for (let start = 0; start < n; start += BLOCK) {
    const end = Math.min(n, start + BLOCK);
    edition.convert(start, end);
    work.forEach(({ loop, capacity, flags }, k) => loop.run(end - start, (inputs[k] ?? []).map((input) => input.block), capacity.subarray(start, end), flags.subarray(start, end)));
  }
  for (const { provision, loop, capacity, flags } of work) if (loop.mayPart) splitGroups(code, provision, specimens, settings, capacity, flags);
  return work.map(({ provision, capacity, flags }) => ({ provision, capacity, flags }));
}

interface EditionColumns {
  /** A column as the formulas are compiled for: its one value in the edition's units, or that it varies. */
  column(name: string): InputColumn;
  /** The column of a symbol that varies; `block` holds the rows last converted. */
  converted(name: string): { block: Float64Array };
  convert(start: number, end: number): void;
}

/** Columns in the edition's units. Symbols that come from the same numbers (a bond stress used for both states) share one. */
function editionColumns(code: CodeDefinition, settings: PredictionSettings, specimens: Specimens): EditionColumns {
  const made = new Map<string, { block: Float64Array; readonly from: Float64Array; readonly size: number; readonly room: Float64Array }>();
  const ids = new Map<Float64Array, number>();
  const sizeOf = (name: string): number => code.system.inSi[quantityOf(code, name)];
  return {
    column(name) {
      const { values, hasMissing } = columnFor(code, settings, specimens, name);
      return { values: typeof values === "number" ? values / sizeOf(name) : values, hasMissing };
    },
    converted(name) {
      const from = columnFor(code, settings, specimens, name).values as Float64Array;
      const size = sizeOf(name);
      if (!ids.has(from)) ids.set(from, ids.size);
      const key = `${ids.get(from) ?? ""} ${size}`;
      const known = made.get(key) ?? { block: from, from, size, room: size === 1 ? from : new Float64Array(Math.min(BLOCK, specimens.length)) };
      made.set(key, known);
      return known;
    },
    convert(start, end) {
      for (const column of made.values()) {
        if (column.size === 1) column.block = column.from.subarray(start, end);
        else column.block = divided(column.from, column.size, start, end, column.room);
      }
    },
  };
}

function divided(values: Float64Array, size: number, start: number, end: number, room: Float64Array): Float64Array {
  for (let i = start, k = 0; i < end; i++, k++) room[k] = values[i]! / size;
  return room;
}

function quantityOf(code: CodeDefinition, name: string): Quantity {
  const option = code.options[name];
  if (option) return option.quantity;
  if (isInput(name)) return INPUTS[name].quantity;
  throw new Error(`Symbol "${name}" is neither an input nor an option of ${code.id}.`);
}

/** Option values come from the settings or the code's defaults; everything else from the rows. */
function columnFor(code: CodeDefinition, settings: PredictionSettings, specimens: Specimens, name: string): InputColumn {
  const option = code.options[name];
  if (option) return { values: settings.options?.[name] ?? option.value, hasMissing: false };
  if (isInput(name)) return specimens.column(name);
  throw new Error(`Symbol "${name}" is neither an input nor an option of ${code.id}.`);
}

/** Rows whose bars do not all act together are taken apart one by one; all others stand as the column loop left them. */
function splitGroups(code: CodeDefinition, provision: ProvisionDefinition, specimens: Specimens, settings: PredictionSettings, capacity: Float64Array, flags: Int32Array): void {
  const evaluator = rowEvaluator(code, provision);
  for (let i = 0; i < specimens.length; i++) {
    if (((flags[i] ?? 0) & APART) === 0) continue;
    const whole = groupCapacity(provision, evaluator, rowArguments(code, evaluator, specimens, settings, i), specimens.level === "design");
    capacity[i] = whole.capacity * code.system.inSi.force;
    flags[i] = whole.flags;
  }
}

/** The values a provision reads for one row, in the edition's units. */
export function rowArguments(code: CodeDefinition, evaluator: RowEvaluator, specimens: Specimens, settings: PredictionSettings, i: number): Arguments {
  return evaluator.reads.map(({ name, quantity }) => {
    const { values } = columnFor(code, settings, specimens, name);
    return (typeof values === "number" ? values : (values[i] ?? NaN)) / code.system.inSi[quantity];
  });
}

/** The provisions of a code that read a symbol; useful to say what a blank column withholds. */
export function provisionsReading(code: CodeDefinition, symbol: string): readonly ProvisionDefinition[] {
  return code.provisions.filter((provision) => symbolsRead(code, provision).some((read) => read.name === symbol));
}
