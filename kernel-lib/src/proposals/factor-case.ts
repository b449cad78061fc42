import {
  compare,
  groupRatios,
  type LowerBoundRule,
  type Comparison,
  type RatioGroup,
} from "../comparison";
import type { TestTable } from "../dataset";
import type { CodeDefinition, Level } from "../provisions";
import { beforeAfterOf, type BeforeAfter } from "./before-after";
import type { DerivedFactor } from "./criteria";
import { factorPlaces } from "./factor-places";
import { oneFactorPerMode, type FactorPlace } from "./one-factor-per-mode";
import { factorsOfModes, type FactorsOfMode, type PoolingSettings } from "./pooling";
import type { Proposal } from "./proposal";
import { proposedJointly, type DeriveOn } from "./proposed-jointly";

/** How the case for factors is made. */
export interface FactorCaseSettings extends PoolingSettings {
  readonly level?: Level;
  /** Which failures in other modes count as lower bounds; default that of `compare`. */
  readonly lowerBounds?: LowerBoundRule;
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
  /** On the present code, each mode by itself. */
  readonly derived: readonly FactorsOfMode[];
  /** The factors of each FRP group, in the order of the groups. */
  readonly factors: readonly DerivedFactor[];
  /** Derived jointly: a provision that uses the result of another requires less beside its factor. */
  readonly proposals: readonly Proposal[];
  /** Factors of one mode on a changed code, as this case derives them. */
  readonly deriveOn: DeriveOn;
  /** Before and after, of the modes studied. */
  readonly change: BeforeAfter;
}

const BY = ["mode", "bar_material"] as const;

/**
 * The case for one factor a mode on FRP bars: compare, derive, propose, compare again. Notebook and
 * committee packet both rest on it, so that they cannot disagree.
 * @example factorCase(tests, code("aci318-19"), { level: "nominal" }).proposals
 */
export function factorCase(
  tests: TestTable,
  present: CodeDefinition,
  settings: FactorCaseSettings = {},
): FactorCase {
  const { level = "nominal", fractile = 0.05, confidence = 0.9 } = settings;
  const { distribution, cells } = settings;
  const question = {
    fractile,
    confidence,
    ...(distribution === undefined ? {} : { distribution }),
    ...(cells === undefined ? {} : { cells }),
  };
  const asked = {
    level,
    ...(settings.lowerBounds === undefined ? {} : { bounds: settings.lowerBounds }),
  };
  const whole = compare(tests, present, asked);
  const places = settings.places ?? factorPlaces(whole);
  const comparison: Comparison = {
    ...whole,
    evidence: whole.evidence.filter(({ mode }) => mode in places),
  };
  const groups = groupRatios(comparison, BY, question);
  const frp = groups.filter(({ by }) => by["bar_material"] !== "steel");
  const derived = factorsOfModes(comparison, frp, settings);
  const deriveOn: DeriveOn = (mode, changed) => {
    const again = compare(tests, changed, asked);
    const evidence = again.evidence.filter((one) => one.mode in places);
    const classes = groupRatios({ ...again, evidence }, BY, question).filter(
      ({ by }) => by["mode"] === mode && by["bar_material"] !== "steel",
    );
    return factorsOfModes({ ...again, evidence }, classes, settings)[0] ?? null;
  };
  const proposals = proposedJointly({ derived, places, code: present, deriveOn }, (some) =>
    oneFactorPerMode(some, places, tests),
  );
  const change = beforeAfterOf(
    tests,
    present,
    proposals,
    BY,
    { ...asked, ...question, modes: Object.keys(places) },
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
    deriveOn,
    change,
  };
}
