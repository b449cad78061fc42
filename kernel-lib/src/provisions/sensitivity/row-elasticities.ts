import type { CodeDefinition, ProvisionDefinition } from "../model/definition";
import type { Level } from "../model/levels";
import type { Reason } from "../model/reasons";
import type { NearbySwitch } from "./nearby-switches";
import type { RowVariable } from "./row-inputs";

/**
 * How one capacity follows one variable: `elasticity` = d ln N / d ln x, percent per 1 %.
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

/** What one row's capacities by one code depend on. */
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
