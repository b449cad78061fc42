import type { TestColumns } from "../inputs/prepare";
import { VariedRow } from "../inputs/varied-row";
import type { CodeDefinition, ProvisionDefinition } from "../model/definition";
import type { Level } from "../model/levels";
import { rowEvaluator, type Arguments } from "../model/evaluate-row";
import { governing } from "../model/governing";
import { groupCapacity } from "../model/group-split";
import { predict, rowArguments, type PredictionSettings } from "../model/predict";
import { reasonsAt } from "../model/reasons";
import { testReaches } from "../model/setup-modes";
import type { PlaceOnLaw } from "./nearby-switches";
import { capacityRate } from "./provision-rate";
import type { RowVariable } from "./row-inputs";
import type { RowElasticities } from "./row-elasticities";

/**
 * One row prepared for one code: which provisions apply, and what they give when a variable
 * changes.
 */
export class RowOfCode {
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
