import { Specimens, type Readings, type TestColumns } from "../inputs/prepare";
import { INPUTS, isInput } from "../inputs/catalogue";
import { valueAt, type InputColumn } from "../inputs/derived-column";
import { compileProvisions } from "./compiled-provisions";
import { requireOffered, type CodeDefinition, type Level, type ProvisionDefinition } from "./definition";
import type { Arguments, RowEvaluator } from "./evaluate-row";
import { takeGroupsApart } from "./groups-apart";
import { symbolsRead } from "./provision-symbols";
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

function predictColumns(code: CodeDefinition, stated: readonly ProvisionDefinition[], specimens: Specimens, settings: PredictionSettings): ProvisionColumn[] {
  const n = specimens.length;
  const design = specimens.level === "design";
  const inSi = (name: string): InputColumn => columnFor(code, settings, specimens, name);
  const sizeOf = (name: string): number => code.system.inSi[quantityOf(code, name)];
  const { plans, withheldBy, columns, run } = compileProvisions(code, stated, design, n, inSi, sizeOf);
  const predicted = stated.map((provision) => ({ provision, capacity: new Float64Array(n), flags: new Int32Array(n) }));
  run(n, columns.map((name) => specimens.tableColumn(name)), predicted.flatMap(({ capacity, flags }, k) => (withheldBy[k] === 0 ? [capacity, flags] : [])));
  predicted.forEach(({ provision, capacity, flags }, k) => {
    const bit = withheldBy[k] ?? 0;
    if (bit !== 0) {
      capacity.fill(NaN);
      flags.fill(bit);
    } else if (plans[k]?.mayPart) takeGroupsApart(code, provision, design, inSi, sizeOf, capacity, flags);
  });
  return predicted;
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
  if (option) return settings.options?.[name] ?? option.value;
  if (isInput(name)) return specimens.column(name);
  throw new Error(`Symbol "${name}" is neither an input nor an option of ${code.id}.`);
}

/** The values a provision reads for one row, in the edition's units. */
export function rowArguments(code: CodeDefinition, evaluator: RowEvaluator, specimens: Specimens, settings: PredictionSettings, i: number): Arguments {
  return evaluator.reads.map(({ name, quantity }) => valueAt(columnFor(code, settings, specimens, name), i) / code.system.inSi[quantity]);
}

/** The provisions of a code that read a symbol; useful to say what a blank column withholds. */
export function provisionsReading(code: CodeDefinition, symbol: string): readonly ProvisionDefinition[] {
  return code.provisions.filter((provision) => symbolsRead(code, provision).some((read) => read.name === symbol));
}
