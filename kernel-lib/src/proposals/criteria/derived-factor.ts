import type { GroupSettings, RatioGroup } from "../../comparison";
import type { AsSteel } from "./steel-question";
import type { Criterion, CriterionResult } from "./criterion";
import type { LeftOut } from "./left-out";
import type { ReliabilityTarget } from "./reliability-criterion";

/**
 * A factor of one group by the criterion it is proposed from, with the other criteria beside it.
 */
export interface DerivedFactor {
  readonly label: string;
  readonly by: RatioGroup["by"];
  readonly status: "derived" | "not derived";
  readonly criterion: Criterion;
  readonly criteria: Readonly<Record<Criterion, CriterionResult>>;
  readonly steel: AsSteel;
  /** The factor by the criterion, not rounded. */
  readonly exact: number | null;
  /** Rounded to the safe side, not above 1. */
  readonly rounded: number | null;
  /**
   * Whether the tests show that a factor below 1 is needed: the upper bound by the criterion is
   * below 1.
   */
  readonly supported: boolean;
  readonly n: number;
  readonly lowerBounds: number;
  readonly series: number;
  readonly studies: number;
  /** Without each study and each laboratory in turn. */
  readonly leftOut: readonly LeftOut[];
  readonly warnings: readonly string[];
  readonly reading: string;
}

/** How factors are derived. */
export interface FactorSettings extends Pick<
  GroupSettings,
  "fractile" | "confidence" | "distribution" | "cells"
> {
  /** Default: `as steel` where it can be derived, else `fractile`. */
  readonly criterion?: Criterion;
  readonly reliability?: ReliabilityTarget;
  /** Rounded down to this step; default 0.05. */
  readonly step?: number;
}
