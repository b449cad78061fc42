import { comparisonSettings, compare, groupRatios, type RatioGroup } from "../../comparison";
import {
  CRITERIA,
  FactorDerivation,
  factorsOfModes,
  type Criterion,
  type DeriveOn,
  type DerivedFactor,
  type FactorsOfMode,
  type PoolingSettings,
} from "../../proposals";
import { knownName } from "../results/names";
import { isSteel, rowsChosen, type GroupsOfCode } from "./judged-groups";
import { loadsNamed, type LoadModelId } from "./loads-named";

/** How factors are derived. */
export interface FactorOptions {
  /**
   * The criterion proposed from; default "as steel" where every class of the mode has such a factor
   * (3 series of steel beside it), else "fractile".
   */
  readonly criterion?: Criterion;
  /** Target index of the reliability criterion; default 3.5. */
  readonly target?: number;
  /** Loads of the reliability criterion; default "nowak-2003". */
  readonly loads?: LoadModelId;
  /** Rounded down to this; default 0.05. */
  readonly step?: number;
  /**
   * Whether one factor is derived from the tests of all classes of a mode, where no significant
   * difference between them was found; default "never".
   */
  readonly pool?: "never" | "when shown equal";
}

/** The factors of groups, and what they were derived from. */
export interface DerivedFactors {
  readonly derivation: FactorDerivation;
  readonly groups: readonly RatioGroup[];
  readonly factors: readonly DerivedFactor[];
  /** Empty where the groups have no mode. */
  readonly byMode: readonly FactorsOfMode[];
}

/** The factors of the groups of FRP bars; by mode with one criterion for all classes of a mode. */
export function derivedFactors(asked: GroupsOfCode, settings: PoolingSettings): DerivedFactors {
  const derivation = new FactorDerivation(asked.pairs, settings);
  const frp = frpGroups(asked);
  if (!asked.columns.includes("mode"))
    return {
      derivation,
      groups: frp,
      factors: frp.map((group) => derivation.derive(group)),
      byMode: [],
    };
  const byMode = factorsOfModes(asked.pairs, frp, settings);
  return {
    derivation,
    groups: byMode.flatMap(({ classes }) => classes),
    factors: byMode.flatMap(({ perClass }) => perClass),
    byMode,
  };
}

/** Factors of one mode on a changed code, from the same tests in the same groups. */
export function deriveOnGroups(asked: GroupsOfCode, settings: PoolingSettings): DeriveOn {
  return (mode, changed) => {
    const { tests } = asked.pairs;
    const all = compare(tests, changed, comparisonSettings(asked.pairs));
    const pairs = rowsChosen(all, asked.pairs);
    const columns = asked.columns.filter((column) => column !== "code");
    const groups = groupRatios(pairs, columns, asked.question).filter(
      ({ by }) => by["mode"] === mode,
    );
    return derivedFactors({ ...asked, pairs, groups }, settings).byMode[0] ?? null;
  };
}

/** The groups without steel; where one holds both, its FRP bars alone. */
function frpGroups({ pairs, groups, columns, question }: GroupsOfCode): readonly RatioGroup[] {
  const steelIn = ({ evidence }: RatioGroup): number =>
    evidence.filter(({ row }) => isSteel(pairs, row)).length;
  const withFrp = groups.filter((group) => steelIn(group) < group.evidence.length);
  if (withFrp.every((group) => steelIn(group) === 0)) return withFrp;
  const labels = new Set(withFrp.map(({ by }) => JSON.stringify(by)));
  return groupRatios(
    {
      ...pairs,
      evidence: pairs.evidence.filter(({ row }) => !isSteel(pairs, row)),
      notJudged: [],
    },
    columns.filter((column) => column !== "code"),
    question,
  ).filter(({ by }) => labels.has(JSON.stringify(by)));
}

/**
 * Options as the room of proposals takes them.
 * @throws UnknownNameError for a criterion, load model or pooling; RangeError for a step
 */
export function factorSettings(
  { question, setting }: GroupsOfCode,
  options: FactorOptions,
): PoolingSettings {
  const { criterion = setting.settings?.criterion, target, loads, step, pool = "never" } = options;
  if (criterion !== undefined) knownName("criterion", criterion, CRITERIA);
  if (step !== undefined && !(step > 0))
    throw new RangeError(`The step is ${step}; expected a number above 0, such as 0.05.`);
  const model = loads === undefined ? undefined : loadsNamed(loads);
  knownName("pool", pool, ["never", "when shown equal"]);
  const { fractile, confidence, distribution, cells } = question;
  return {
    ...(fractile === undefined ? {} : { fractile }),
    ...(confidence === undefined ? {} : { confidence }),
    ...(distribution === undefined ? {} : { distribution }),
    ...(cells === undefined ? {} : { cells }),
    ...(criterion === undefined ? {} : { criterion }),
    ...(step === undefined ? {} : { step }),
    reliability: {
      ...(target === undefined ? {} : { index: target }),
      ...(model === undefined ? {} : { loads: model }),
    },
    pooling: pool === "never" ? "never" : "no difference found",
  };
}
