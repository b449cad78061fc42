import {
  compare,
  groupRatios,
  type BoundRule,
  type Comparison,
  type RatioGroup,
} from "../comparison";
import type { TestTable } from "../dataset";
import type { CodeDefinition, Level } from "../provisions";
import { beforeAfterOf, type BeforeAfter } from "./before-after";
import type { DerivedFactor } from "./criteria";
import { FRP_MODES_ACI318, oneFactorPerMode, type FactorPlace } from "./one-factor-per-mode";
import { factorsOfModes, type FactorsOfMode, type PoolingSettings } from "./pooling";
import type { Proposal } from "./proposal";

/** How the case for factors is made. */
export interface FactorCaseSettings extends PoolingSettings {
  readonly level?: Level;
  /** Which failures in other modes count as lower bounds; default that of `compare`. */
  readonly bounds?: BoundRule;
  /** The provisions that may get a factor, by mode; those of ACI 318-19 by default. */
  readonly places?: Readonly<Record<string, FactorPlace>>;
}

/**
 * The whole case: what was judged, where it falls short, the factors, the proposals, and the
 * comparison with them.
 */
export interface FactorCase {
  /** All tests given; which of them judge a provision is the comparison's rule of scope. */
  readonly tests: TestTable;
  readonly present: CodeDefinition;
  readonly level: Level;
  readonly question: { readonly fractile: number; readonly confidence: number };
  /** The evidence of the modes studied, in every material. */
  readonly comparison: Comparison;
  /** Groups by mode and material. */
  readonly groups: readonly RatioGroup[];
  readonly derived: readonly FactorsOfMode[];
  /** The factors of each FRP group, in the order of the groups. */
  readonly factors: readonly DerivedFactor[];
  readonly proposals: readonly Proposal[];
  /** Before and after, of the modes studied. */
  readonly change: BeforeAfter;
}

const BY = ["mode", "bar_material"] as const;

/**
 * The case for one factor a mode on FRP bars: compare, derive, propose, compare again. Notebook and
 * committee packet both rest on it, so that they cannot disagree.
 * @example factorCase(study.data.tests, code("aci318-19"), { level: "nominal" }).proposals
 */
export function factorCase(
  tests: TestTable,
  present: CodeDefinition,
  settings: FactorCaseSettings = {},
): FactorCase {
  const {
    level = "nominal",
    places = FRP_MODES_ACI318,
    fractile = 0.05,
    confidence = 0.9,
  } = settings;
  const { distribution, cells } = settings;
  const question = {
    fractile,
    confidence,
    ...(distribution === undefined ? {} : { distribution }),
    ...(cells === undefined ? {} : { cells }),
  };
  const whole = compare(tests, present, {
    level,
    ...(settings.bounds === undefined ? {} : { bounds: settings.bounds }),
  });
  const comparison: Comparison = {
    ...whole,
    evidence: whole.evidence.filter(({ mode }) => mode in places),
  };
  const groups = groupRatios(comparison, BY, question);
  const frp = groups.filter(({ by }) => by["bar_material"] !== "steel");
  const derived = factorsOfModes(comparison, frp, settings);
  const proposals = oneFactorPerMode(derived, places, tests);
  const change = beforeAfterOf(
    tests,
    present,
    proposals,
    BY,
    {
      level,
      ...question,
      modes: Object.keys(places),
      ...(settings.bounds === undefined ? {} : { bounds: settings.bounds }),
    },
    groups,
  );
  return {
    tests,
    present,
    level,
    question: { fractile, confidence },
    comparison,
    groups,
    derived,
    factors: derived.flatMap(({ perClass }) => perClass),
    proposals,
    change,
  };
}
