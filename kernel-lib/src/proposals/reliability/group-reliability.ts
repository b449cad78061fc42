import type { RatioGroup } from "../../comparison";
import type { TestTable } from "../../dataset";
import { predict, type CodeDefinition } from "../../provisions";
import { fitCensored } from "../../statistics";
import { loadModel, type LoadModel } from "./load-statistics";
import { reliabilityOverLoadRatio } from "./reliability-over-load-ratio";
import {
  resistanceStatistics,
  type ResistanceStatistics,
  type ScatterSource,
} from "./resistance-statistics";

/** On what loads and at what ratios the reliability of a group is judged. */
export interface GroupReliabilitySettings {
  readonly loads?: LoadModel;
  /** Shares L/(D + L); default 0.3 to 0.7. */
  readonly variableShares?: readonly number[];
  /**
   * Scatter that the tests do not hold, such as of material or fabrication in practice; nothing by
   * default.
   */
  readonly material?: ScatterSource;
  readonly fabrication?: ScatterSource;
  /**
   * Coefficient of variation of measuring and testing, taken out of the group's scatter; 0 by
   * default.
   */
  readonly specimenCov?: number;
  /** Scatter of the material where it differs from group to group; `material` when undefined. */
  readonly materialOf?: (group: RatioGroup) => ScatterSource | undefined;
  /** Whose mean and scatter the resistance has; default the cell that decides. */
  readonly scatterOf?: ScatterOf;
}

/**
 * `deciding cell`: a further test of a further series in the deciding cell, series effect
 * included. `all tests`: all tests of the group, layouts and series together, log-normal by maximum
 * likelihood.
 */
export type ScatterOf = "deciding cell" | "all tests";

const FEWEST = 3;

/**
 * Resistance over nominal of a group; null with fewer than 3 failures or without scatter.
 * @example resistanceOfGroup(group, { scatterOf: "all tests" })?.cov
 */
export function resistanceOfGroup(
  group: RatioGroup,
  settings: GroupReliabilitySettings,
): ResistanceStatistics | null {
  const { mean, cov } =
    settings.scatterOf === "all tests" ? allTests(group) : (group.inGeneral.ofCell ?? group);
  if (group.n < FEWEST || mean === null || cov === null || !(mean > 0 && cov > 0)) return null;
  const { fabrication, specimenCov } = settings;
  const material = settings.materialOf?.(group) ?? settings.material;
  return resistanceStatistics({
    professional: { bias: mean, cov },
    ...(material ? { material } : {}),
    ...(fabrication ? { fabrication } : {}),
    ...(specimenCov === undefined ? {} : { specimenCov }),
  });
}

function allTests({ evidence }: RatioGroup): {
  readonly mean: number | null;
  readonly cov: number | null;
} {
  const fit = fitCensored({
    values: evidence.map(({ ratio }) => ratio),
    censored: evidence.map(({ bound }) => bound),
    distribution: "lognormal",
  });
  return fit.status === "cannot be estimated" ? { mean: null, cov: null } : fit;
}

/** The strength reduction of every group of a comparison, and the reliability index it gives. */
export interface GroupReliability {
  /**
   * φ of the code for a group: the largest over its tests, which is the least safe; null where the
   * code states none.
   */
  reductionOf(group: RatioGroup): number | null;
  /**
   * Index of a group at each share of variable load; null where its moments or φ cannot be
   * estimated.
   */
  indexOf(
    group: RatioGroup,
  ): readonly { readonly variableShare: number; readonly index: number }[] | null;
}

/**
 * Reliability indices of groups of nominal ratios: resistance over nominal is log-normal with the
 * mean and coefficient of variation of a further test of a further series in the deciding cell
 * (within and between series together; with fewer than 3 series those of the group, by maximum
 * likelihood where there are lower bounds), φ is design over nominal capacity in the code. The
 * ratios to the nominal capacity hold the scatter of material and testing already, so nothing is
 * added or taken out unless the settings say so. The moments are estimates: the index does not hold
 * their uncertainty.
 *
 * @param code the present code; a factor on the nominal capacity leaves its φ as it is
 * @example groupReliability(tests, code("aci318-19")).indexOf(group)
 */
export function groupReliability(
  tests: TestTable,
  code: CodeDefinition,
  settings: GroupReliabilitySettings = {},
): GroupReliability {
  const [nominal, design] = [
    predict(code, tests, { level: "nominal" }),
    predict(code, tests, { level: "design" }),
  ];
  const place = new Map(design.columns.map(({ provision }, k) => [provision.id, k]));
  const loads = settings.loads ?? loadModel("nowak-2003");
  const reductionOf = (group: RatioGroup): number | null => {
    const found = group.evidence.flatMap(({ row, column }) => {
      const reduced =
        design.columns[place.get(nominal.columns[column]?.provision.id ?? "") ?? -1]?.capacity[
          row
        ] ?? NaN;
      const ratio = reduced / (nominal.columns[column]?.capacity[row] ?? NaN);
      return Number.isFinite(ratio) ? [ratio] : [];
    });
    return found.length === 0 ? null : Math.max(...found);
  };
  return {
    reductionOf,
    indexOf: (group) => {
      const phi = reductionOf(group);
      const resistance = resistanceOfGroup(group, settings);
      if (phi === null || resistance === null) return null;
      const found = reliabilityOverLoadRatio({ resistance, loads }, phi, settings.variableShares);
      return found.every(({ reliability }) => reliability.status === "converged")
        ? found.map(({ variableShare, reliability }) => ({
            variableShare,
            index: reliability.index,
          }))
        : null;
    },
  };
}
