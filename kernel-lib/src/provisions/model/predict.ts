import { Specimens, type Readings, type TestColumns } from "../inputs/prepare";
import { INPUTS, isInput } from "../inputs/catalogue";
import { valueAt, type InputColumn } from "../inputs/derived-column";
import { requireOffered, type CodeDefinition, type ProvisionDefinition } from "./definition";
import type { Level } from "./levels";
import { rowEvaluator, type Arguments, type RowEvaluator } from "./evaluate-row";
import { groupCapacity } from "./group-split";
import { APART } from "./loop-plan";
import { provisionLoop } from "./provision-loop";
import type { Quantity } from "./unit-system";

/**
 * How a code is applied: the level, the options it offers (N, mm, MPa) and the readings of the
 * data.
 */
export interface PredictionSettings {
  readonly level?: Level;
  readonly options?: Readonly<Record<string, number>>;
  readonly readings?: Readings;
}

/**
 * The capacities of one provision for every row: N, NaN where withheld, and the flags that say why.
 */
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
 * @example
 * predict(code("aci318-19"), tests, { level: "nominal", options: { supplementary_reinforcement: 1 } })
 */
export function predict(
  code: CodeDefinition,
  tests: TestColumns,
  settings: PredictionSettings = {},
): CodePrediction {
  const level = settings.level ?? "nominal";
  requireOffered(code, Object.keys(settings.options ?? {}));
  const specimens = new Specimens(tests, level, settings.readings ?? {});
  const stated = code.provisions.filter((provision) => provision.levels.includes(level));
  const columns = predictColumns(code, stated, specimens, settings);
  return {
    code,
    level,
    specimens,
    settings,
    columns,
    unstated: code.provisions.filter((provision) => !stated.includes(provision)),
  };
}

function predictColumns(
  code: CodeDefinition,
  stated: readonly ProvisionDefinition[],
  specimens: Specimens,
  settings: PredictionSettings,
): ProvisionColumn[] {
  const design = specimens.level === "design";
  const inSi = (name: string): InputColumn => columnFor(code, settings, specimens, name);
  const sizeOf = (name: string): number => code.system.inSi[quantityOf(code, name)];
  return stated.map((provision) => {
    const column = {
      provision,
      capacity: new Float64Array(specimens.length),
      flags: new Int32Array(specimens.length),
    };
    const { withheldBy, columns, run, mayPart } = provisionLoop(
      code,
      provision,
      design,
      inSi,
      sizeOf,
    );
    if (withheldBy !== 0) {
      column.capacity.fill(NaN);
      column.flags.fill(withheldBy);
      return column;
    }
    run(
      specimens.length,
      columns.map((name) => specimens.tableColumn(name)),
      [column.capacity, column.flags],
    );
    if (mayPart) takeGroupsApart(code, column, specimens, settings);
    return column;
  });
}

/**
 * Rows whose bars do not all act together, as the loop has marked them, are evaluated part by part,
 * as by hand.
 */
function takeGroupsApart(
  code: CodeDefinition,
  { provision, capacity, flags }: ProvisionColumn,
  specimens: Specimens,
  settings: PredictionSettings,
): void {
  const evaluator = rowEvaluator(code, provision);
  for (let i = 0; i < flags.length; i++) {
    if ((flags[i]! & (APART.x | APART.y)) === 0) continue;
    const whole = groupCapacity(
      provision,
      evaluator,
      rowArguments(code, evaluator, specimens, settings, i),
      specimens.level === "design",
    );
    capacity[i] = whole.capacity * code.system.inSi.force;
    flags[i] = whole.flags;
  }
}

function quantityOf(code: CodeDefinition, name: string): Quantity {
  const option = code.options[name];
  if (option) return option.quantity;
  if (isInput(name)) return INPUTS[name].quantity;
  throw new Error(`Symbol "${name}" is neither an input nor an option of ${code.id}.`);
}

/** Option values come from the settings or the code's defaults; everything else from the rows. */
function columnFor(
  code: CodeDefinition,
  settings: PredictionSettings,
  specimens: Specimens,
  name: string,
): InputColumn {
  const option = code.options[name];
  if (option) return settings.options?.[name] ?? option.value;
  if (isInput(name)) return specimens.column(name);
  throw new Error(`Symbol "${name}" is neither an input nor an option of ${code.id}.`);
}

/** The values a provision reads for one row, in the edition's units. */
export function rowArguments(
  code: CodeDefinition,
  evaluator: RowEvaluator,
  specimens: Specimens,
  settings: PredictionSettings,
  i: number,
): Arguments {
  return evaluator.reads.map(
    ({ name, quantity }) =>
      valueAt(columnFor(code, settings, specimens, name), i) / code.system.inSi[quantity],
  );
}
