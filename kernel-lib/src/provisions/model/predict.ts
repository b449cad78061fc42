import { Specimens, type Readings, type TestColumns } from "../inputs/prepare";
import { INPUTS, isInput } from "../inputs/catalogue";
import { dividedBy } from "../inputs/column-values";
import { APART, compileLoop, symbolsRead, type InputColumn } from "./compile";
import type { CodeDefinition, Level, ProvisionDefinition } from "./definition";
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
  for (const name of Object.keys(settings.options ?? {})) {
    if (!code.options[name]) throw new Error(`${code.id} offers no option "${name}"; expected one of ${Object.keys(code.options).join(", ") || "none"}.`);
  }
  const specimens = new Specimens(tests, level, settings.readings ?? {});
  const stated = code.provisions.filter((provision) => provision.levels.includes(level));
  const columnOf = inEditionUnits(code, settings, specimens);
  const columns = stated.map((provision) => predictProvision(code, provision, specimens, settings, columnOf));
  return { code, level, specimens, settings, columns, unstated: code.provisions.filter((provision) => !stated.includes(provision)) };
}

type ColumnSource = (name: string) => InputColumn;

/** Columns in the edition's units, each converted once for all provisions that read it. */
function inEditionUnits(code: CodeDefinition, settings: PredictionSettings, specimens: Specimens): ColumnSource {
  const converted = new Map<string, InputColumn>();
  return (name) => {
    const known = converted.get(name);
    if (known) return known;
    const { values, hasMissing } = columnFor(code, settings, specimens, name);
    const size = code.system.inSi[quantityOf(code, name)];
    const column = { values: size === 1 ? values : dividedBy(values, size), hasMissing };
    converted.set(name, column);
    return column;
  };
}

function quantityOf(code: CodeDefinition, name: string): Quantity {
  const option = code.options[name];
  if (option) return option.quantity;
  if (isInput(name)) return INPUTS[name].quantity;
  throw new Error(`Symbol "${name}" is neither an input nor an option of ${code.id}.`);
}

function predictProvision(code: CodeDefinition, provision: ProvisionDefinition, specimens: Specimens, settings: PredictionSettings, columnOf: ColumnSource): ProvisionColumn {
  const n = specimens.length;
  const capacity = new Float64Array(n);
  const flags = new Int32Array(n);
  const design = specimens.level === "design";
  const { run, columns } = compileLoop(code, provision, design, columnOf);
  run(n, columns.map((name) => columnOf(name).values as Float64Array), capacity, flags);
  if (provision.split) splitGroups(code, provision, specimens, settings, capacity, flags);
  return { provision, capacity, flags };
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
