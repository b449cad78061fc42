import type { RatioGroup } from "../../comparison";
import type { TestTable } from "../../dataset";
import { predict, type CodeDefinition } from "../../provisions";
import { loadModel, type LoadModel } from "./load-statistics";
import { reliabilityOverLoadRatio } from "./reliability-over-load-ratio";
import { resistanceStatistics, type ScatterSource } from "./resistance-statistics";

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

const FEWEST = 3;

/**
 * Reliability indices of groups of nominal ratios: resistance over nominal is log-normal with the
 * mean and coefficient of variation of a further test of a further series in the cell that decides
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
  const { material, fabrication, specimenCov } = settings;
  const sources = {
    ...(material ? { material } : {}),
    ...(fabrication ? { fabrication } : {}),
    ...(specimenCov === undefined ? {} : { specimenCov }),
  };
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
      const { mean, cov } = group.inGeneral.ofCell ?? group;
      if (
        phi === null ||
        group.n < FEWEST ||
        mean === null ||
        cov === null ||
        !(cov > 0) ||
        !(mean > 0)
      )
        return null;
      const found = reliabilityOverLoadRatio(
        {
          resistance: resistanceStatistics({ professional: { bias: mean, cov }, ...sources }),
          loads,
        },
        phi,
        settings.variableShares,
      );
      return found.every(({ reliability }) => reliability.status === "converged")
        ? found.map(({ variableShare, reliability }) => ({
            variableShare,
            index: reliability.index,
          }))
        : null;
    },
  };
}
