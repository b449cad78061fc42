import type { RatioGroup, VerdictWord } from "../../comparison";
import type { CodeDefinition, ProvisionDefinition } from "../../provisions";
import type { Criterion } from "../criteria";
import type { ProposedChange } from "../proposal";
import type { TestedScope } from "../tested-scope";

/** One class of bars on a ballot sheet; null where a number cannot be estimated. */
export interface SheetClass {
  readonly label: string;
  readonly steel: boolean;
  readonly n: number;
  readonly lowerBounds: number;
  readonly series: number;
  readonly studies: number;
  /** In general (series effect included), and for the bars and concretes of these series. */
  readonly verdict: VerdictWord;
  readonly asTested: VerdictWord;
  /** 5 % fractile of test/predicted with its one-sided bounds. */
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Lower bound with the change. */
  readonly lowerAfter: number | null;
  readonly verdictAfter: VerdictWord | null;
  /** Factor by each criterion, the lower bound, not rounded; above 1 none is needed. */
  readonly factors: Readonly<Record<Criterion, number | null>>;
  readonly criterion: Criterion;
  /** Whether the upper bound of the factor by its criterion is below 1. */
  readonly reductionShown: boolean;
  /** Factor that the change puts on the capacities: least and largest over the tests. */
  readonly applied: { readonly least: number; readonly most: number } | null;
  /** The least factor without one study, and whether what is proposed is no larger. */
  readonly withoutWorst: {
    readonly left: string;
    readonly factor: number;
    readonly adequate: boolean;
  } | null;
  /** Least reliability index over the load ratios, and the strength reduction it is for. */
  readonly indexBefore: number | null;
  readonly indexAfter: number | null;
  readonly phi: number | null;
  /** Mean predicted/test, the share of the strength that is used. */
  readonly usedBefore: number | null;
  readonly usedAfter: number | null;
  readonly belowBefore: number | null;
  readonly belowAfter: number | null;
}

/** Another clause that a change reaches, since it uses the changed result. */
export interface SheetConsequence {
  readonly clause: string;
  readonly label: string;
  readonly lowerBefore: number | null;
  readonly lowerAfter: number | null;
  readonly usedBefore: number | null;
  readonly usedAfter: number | null;
}

/** One anchor before and after, in N. */
export interface WorkedAnchor {
  readonly test: string;
  readonly words: string;
  readonly symbol: string;
  readonly phi: number | null;
  readonly before: number | null;
  readonly after: number | null;
}

/** Whether a change is supported: by its own tests, by a statement of the researcher, or not. */
export type SheetStatus = "supported" | "stands by statement" | "not supported";

/** Everything that one ballot sheet says of the changes of one provision. */
export interface BallotSheet {
  readonly provision: ProvisionDefinition;
  readonly code: CodeDefinition;
  readonly changes: readonly ProposedChange[];
  readonly status: SheetStatus;
  /** Findings against the change that decide the status; empty where it is supported. */
  readonly doubts: readonly string[];
  readonly statement: string | null;
  readonly target: number;
  readonly loads: string;
  readonly classes: readonly SheetClass[];
  readonly consequences: readonly SheetConsequence[];
  readonly scope: TestedScope;
  readonly example: WorkedAnchor | null;
  /** What speaks against the change, the strongest first. */
  readonly against: readonly string[];
  /** Another change of the proposal whose result the provision uses; empty where there is none. */
  readonly beside: readonly string[];
  /** Groups behind the classes, before the change. */
  readonly groups: readonly RatioGroup[];
}
