import type { TestColumns } from "../inputs/prepare";
import { VariedRow } from "../inputs/varied-row";
import type { CodeDefinition, ProvisionDefinition } from "../model/definition";
import type { Level } from "../model/levels";
import { rowEvaluator, type Arguments } from "../model/evaluate-row";
import { governing } from "../model/governing";
import { groupCapacity } from "../model/group-split";
import { predict, rowArguments, type PredictionSettings } from "../model/predict";
import { clauseOf, reasonsAt, type Reason } from "../model/reasons";
import { testReaches } from "../model/setup-modes";
import { nearbySwitches, type NearbySwitch, type PlaceOnLaw } from "./nearby-switches";
import { capacityRate } from "./provision-rate";
import { rowVariables, type RowVariable } from "./row-inputs";

/**
 * How one capacity follows one variable: `elasticity` = d ln N / d ln x, per cent for one per cent.
 */
export interface Elasticity {
  readonly variable: RowVariable;
  readonly elasticity: number;
  /**
   * Where another branch, limit or mode takes over within the step looked at; beside it the
   * elasticity holds.
   */
  readonly switches: readonly NearbySwitch[];
}

/** The elasticities of one capacity of one row. */
export interface CapacityElasticities {
  readonly provision: ProvisionDefinition;
  readonly capacity_N: number;
  readonly governs: boolean;
  readonly by: readonly Elasticity[];
}

/** What one row's capacities by one code hang on. */
export interface RowElasticities {
  readonly code: CodeDefinition;
  readonly level: Level;
  /** Relative step within which switches were looked for. */
  readonly within: number;
  readonly variables: readonly RowVariable[];
  readonly capacities: readonly CapacityElasticities[];
  /**
   * The least capacity that the test can reach, its switches including other modes that take over;
   * null where none applies.
   */
  readonly governing: CapacityElasticities | null;
  readonly withheld: readonly {
    readonly provision: ProvisionDefinition;
    readonly reasons: readonly Reason[];
  }[];
}

/**
 * Elasticities d ln N / d ln x of every capacity of one row, and of the governing one, by every
 * number of the row.
 *
 * They are exact derivatives of the formulas by the chain rule, not differences: a pure power law
 * gives its exponent. At a kink they are those of the branch that the value takes. Every change of
 * law within `within` (default 1 %) above and below is listed with its place, the elasticity beyond
 * and, where the code is not continuous, the jump.
 * @param settings level, options and readings as for `predict`; `within` relative, above 0 and
 *   below 1
 * @throws RangeError for a row that the table has not, or a step out of range
 * @example
 * elasticities(code("aci318-19"), tests, 0).governing?.by.map(({ variable, elasticity }) => [variable.name, elasticity])
 */
export function elasticities(
  code: CodeDefinition,
  tests: TestColumns,
  i: number,
  settings: PredictionSettings & { readonly within?: number } = {},
): RowElasticities {
  const within = settings.within ?? 0.01;
  if (!(within > 0 && within < 1))
    throw new RangeError(
      `elasticities: the step is ${within}, expected a number above 0 and below 1`,
    );
  const row = new RowOfCode(code, tests, i, settings);
  const variables = rowVariables(code, tests, i, settings, row.symbols);
  const of = (provision: ProvisionDefinition): CapacityElasticities => ({
    provision,
    capacity_N: row.capacityOf(provision),
    governs: provision === row.governs,
    by: variables.map((variable) => {
      const at = row.alongProvision(provision, variable);
      return {
        variable,
        elasticity: at(0).elasticity,
        switches: nearbySwitches(variable.value, within, at, (before, beyond) =>
          lawChange(provision, before, beyond),
        ),
      };
    }),
  });
  const capacities = row.applying.map(of);
  const least = capacities.find(({ governs }) => governs);
  const governingOne = least && {
    ...least,
    by: least.by.map((one) => ({
      ...one,
      switches: [...one.switches, ...takeovers(row, one.variable, within)].sort(
        (a, b) => Math.abs(a.relative) - Math.abs(b.relative),
      ),
    })),
  };
  return {
    code,
    level: row.level,
    within,
    variables,
    capacities,
    governing: governingOne ?? null,
    withheld: row.withheld,
  };
}

/**
 * One row prepared for one code: which provisions apply, and what they give when a variable
 * changes.
 */
class RowOfCode {
  readonly level: Level;
  readonly symbols: ReadonlySet<string>;
  readonly applying: readonly ProvisionDefinition[];
  readonly reached: readonly ProvisionDefinition[];
  readonly governs: ProvisionDefinition | undefined;
  readonly withheld: RowElasticities["withheld"];
  readonly #arguments: ReadonlyMap<ProvisionDefinition, Arguments>;

  constructor(
    readonly code: CodeDefinition,
    tests: TestColumns,
    i: number,
    settings: PredictionSettings,
  ) {
    const row = new VariedRow(tests, i, {}, 1);
    const prediction = predict(code, row, settings);
    const [action, setup] = [row.texts("action")[0] ?? null, row.texts("setup")[0] ?? null];
    const columns = prediction.columns.filter(({ provision }) => provision.action === action);
    const specimens = prediction.specimens;
    this.level = prediction.level;
    this.applying = columns
      .filter(({ capacity }) => !Number.isNaN(capacity[0] ?? NaN))
      .map(({ provision }) => provision);
    this.reached = this.applying.filter((provision) => testReaches(action, setup, provision));
    this.governs = prediction.columns[governing(prediction).column[0] ?? -1]?.provision;
    this.withheld = columns
      .filter(({ provision }) => !this.applying.includes(provision))
      .map((column) => ({
        provision: column.provision,
        reasons: reasonsAt(prediction, column, 0),
      }));
    this.#arguments = new Map(
      this.applying.map((provision) => [
        provision,
        rowArguments(code, rowEvaluator(code, provision), specimens, settings, 0),
      ]),
    );
    this.symbols = new Set(
      this.applying.flatMap((provision) =>
        rowEvaluator(code, provision).reads.map(({ name }) => name),
      ),
    );
  }

  /** The arguments of a provision when a variable is multiplied by exp(t). */
  #changed(provision: ProvisionDefinition, { powers }: RowVariable, t: number): Arguments {
    const args = this.#arguments.get(provision) ?? [];
    return t === 0
      ? args
      : args.map(
          (value, k) =>
            value *
            Math.exp(
              t * (powers.get(rowEvaluator(this.code, provision).reads[k]?.name ?? "") ?? 0),
            ),
        );
  }

  capacityAt(provision: ProvisionDefinition, variable: RowVariable, t: number): number {
    return groupCapacity(
      provision,
      rowEvaluator(this.code, provision),
      this.#changed(provision, variable, t),
      this.level === "design",
    ).capacity;
  }

  capacityOf(provision: ProvisionDefinition): number {
    return (
      groupCapacity(
        provision,
        rowEvaluator(this.code, provision),
        this.#arguments.get(provision) ?? [],
        this.level === "design",
      ).capacity * this.code.system.inSi.force
    );
  }

  alongProvision(provision: ProvisionDefinition, variable: RowVariable): (t: number) => PlaceOnLaw {
    return (t) => {
      const args = this.#changed(provision, variable, t);
      const { elasticity, branches } = capacityRate(
        this.code,
        provision,
        args,
        variable.powers,
        this.level === "design",
      );
      const { capacity, flags } = groupCapacity(
        provision,
        rowEvaluator(this.code, provision),
        args,
        this.level === "design",
      );
      return {
        law: JSON.stringify([
          flags,
          branches.map(({ symbol, clause, taken }) => [symbol, clause, taken]),
        ]),
        limits: flags,
        capacity,
        elasticity: Number.isNaN(capacity) ? NaN : elasticity,
      };
    };
  }
}

/** Where another mode becomes the least. */
function takeovers(row: RowOfCode, variable: RowVariable, within: number): NearbySwitch[] {
  const at = (t: number): PlaceOnLaw => {
    const capacities = row.reached
      .map((provision) => ({ provision, capacity: row.capacityAt(provision, variable, t) }))
      .filter(({ capacity }) => !Number.isNaN(capacity));
    const least = capacities.reduce<{ provision: ProvisionDefinition; capacity: number } | null>(
      (a, b) => (a === null || b.capacity < a.capacity ? b : a),
      null,
    );
    if (least === null) return { law: "none", limits: 0, capacity: NaN, elasticity: NaN };
    return {
      law: least.provision.id,
      limits: 0,
      capacity: least.capacity,
      elasticity: row.alongProvision(least.provision, variable)(t).elasticity,
    };
  };
  return nearbySwitches(variable.value, within, at, (_, { law }) => {
    const provision = row.reached.find(({ id }) => id === law);
    return provision
      ? `${provision.modes[0].replaceAll("_", " ")} (${clauseOf(law)}) governs beyond`
      : "no capacity applies beyond";
  });
}

/** Which steps and limits part two laws of one provision, in words. */
function lawChange(provision: ProvisionDefinition, before: PlaceOnLaw, beyond: PlaceOnLaw): string {
  type Law = [number, [string, string, string][]];
  const [[flagsBefore, stepsBefore], [flagsBeyond, stepsBeyond]] = [before, beyond].map(
    ({ law }) => JSON.parse(law) as Law,
  ) as [Law, Law];
  const limits = provision.limits
    .filter((_, k) => ((flagsBefore ^ flagsBeyond) & (1 << k)) !== 0)
    .map(({ clause, says }) => `limit of ${clause}: ${says}`);
  const steps = stepsBefore
    .filter(
      ([symbol, , taken], k) => stepsBeyond[k]?.[0] === symbol && stepsBeyond[k]?.[2] !== taken,
    )
    .map(([symbol, clause]) => `${symbol} (${clause})`);
  const taken =
    stepsBefore.length === stepsBeyond.length
      ? []
      : ["bars of the group begin or cease to act together"];
  return [
    ...limits,
    ...taken,
    ...new Set(steps.length > 0 ? [`another branch of ${[...new Set(steps)].join(", ")}`] : []),
  ].join("; ");
}
