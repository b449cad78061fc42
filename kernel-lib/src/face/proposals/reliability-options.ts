import type { RatioGroup } from "../../comparison";
import type { ReliabilityOfGroupsSettings, ScatterOf } from "../../proposals";
import type { JudgedMode } from "../comparison/evidence-row";
import { knownName } from "../results/names";
import { loadsNamed, type LoadModelId } from "./loads-named";

/**
 * One coefficient of variation for all modes, or one for each mode named and 0 for others, such as
 * `{ bond: 0.08, concrete_edge_breakout: 0.06 }`.
 */
export type CovByMode = number | { readonly [M in JudgedMode]?: number };

/** On what a reliability index rests. Coefficients of variation are dimensionless. */
export interface ReliabilityOptions {
  /** Default 3.5, usual for anchors (common practice, no source). */
  readonly target?: number;
  /** Default "nowak-2003". */
  readonly loads?: LoadModelId;
  /** Scatter of material and fabrication beyond that in the tests; default 0. */
  readonly materialCov?: CovByMode;
  readonly fabricationCov?: number;
  /** Scatter of measuring and testing, taken out of that of the ratios; default 0. */
  readonly measurementCov?: number;
  /**
   * Whose mean and scatter the resistance has: a further test of a further series in the cell that
   * decides (default), or all tests of the group together, layouts and series alike.
   */
  readonly scatterOf?: ScatterOf;
  /** Default: the code's own strength reduction. */
  readonly strengthReduction?: number;
}

/**
 * Options as the room of proposals takes them.
 * @throws RangeError for a number that cannot be used, UnknownNameError for other loads
 */
export function reliabilitySettings(options: ReliabilityOptions): ReliabilityOfGroupsSettings {
  const { target, loads, materialCov, fabricationCov, measurementCov, strengthReduction } = options;
  if (target !== undefined && !(target > 0 && target <= 8))
    throw new RangeError(`The target index is ${target}; expected a number above 0 and up to 8.`);
  if (strengthReduction !== undefined && !(strengthReduction > 0 && strengthReduction <= 1))
    throw new RangeError(
      `The strength reduction is ${strengthReduction}; expected a number above 0 and up to 1.`,
    );
  const scatterOf = knownName("scatterOf", options.scatterOf ?? "deciding cell", [
    "deciding cell",
    "all tests",
  ]);
  const materialOf = covOfMode("materialCov", materialCov ?? 0);
  const [fabrication, specimenCov] = [
    share("fabricationCov", fabricationCov),
    share("measurementCov", measurementCov),
  ];
  return {
    ...(target === undefined ? {} : { target }),
    ...(strengthReduction === undefined ? {} : { strengthReduction }),
    ...(loads === undefined ? {} : { loads: loadsNamed(loads) }),
    scatterOf,
    ...(materialCov === undefined
      ? {}
      : { materialOf: (group) => ({ bias: 1, cov: materialOf(group) }) }),
    ...(fabrication === undefined ? {} : { fabrication: { bias: 1, cov: fabrication } }),
    ...(specimenCov === undefined ? {} : { specimenCov }),
  };
}

/**
 * The coefficient of variation of a group, by the mode of its tests.
 * @throws RangeError for a number that is no share, from 0 to below 1
 */
export function covOfMode(name: string, cov: CovByMode): (group: RatioGroup) => number {
  if (typeof cov === "number") {
    const known = share(name, cov) ?? 0;
    return () => known;
  }
  const byMode = new Map<string, number>(Object.entries(cov));
  for (const [mode, value] of byMode) share(`${name} of ${mode}`, value);
  return ({ evidence }) => {
    const covs = evidence.map(({ mode }) => byMode.get(mode) ?? 0);
    return covs.reduce((low, one) => Math.max(low, one), 0);
  };
}

/** The number itself. @throws RangeError where it is no share from 0 to below 1 */
export function share(name: string, value: number | undefined): number | undefined {
  if (value !== undefined && !(value >= 0 && value < 1))
    throw new RangeError(`${name} is ${value}; expected a share from 0 to 1, such as 0.12.`);
  return value;
}
