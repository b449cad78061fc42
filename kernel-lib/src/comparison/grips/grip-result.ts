import type { BinomialInterval, KaplanMeier } from "../../statistics";
import type { GripTest } from "./grip-tests";
import type { LognormalLaw } from "./lognormal-law";

/** The share of bar strength up to which a grip can be relied on, and what that rests on. */
export interface ReliableShare {
  /** At most `fractile` of bars break in the grip below this share, with the stated confidence. */
  readonly share: number;
  /** Median estimate of the same fractile; null where no bar broke. */
  readonly estimate: number | null;
  readonly from: "lognormal law" | "tests without a break";
}

/** How often and at which share of the bar's strength bars break in one grip. */
export interface GripStrength {
  readonly by: GripTest["by"];
  readonly label: string;
  readonly tests: readonly GripTest[];
  readonly broke: number;
  readonly lowerBounds: number;
  /** Series with a break in the grip. */
  readonly series: number;
  /** Share of the tests that ended in the grip, 95 % exact interval, series effect ignored. */
  readonly rate: BinomialInterval;
  /** Lowest and highest share at a break; null without a break. */
  readonly lowest: number | null;
  readonly highest: number | null;
  /** Largest share that a test reached without a break in the grip; null where every test broke. */
  readonly reached: number | null;
  readonly survival: KaplanMeier;
  readonly law: LognormalLaw | null;
  /**
   * The low fractile by a Weibull law, series effect ignored, to compare; null if it cannot be
   * fitted.
   */
  readonly weibullFractile: number | null;
  readonly reliable: ReliableShare | null;
  /** Why there is no reliable share; null where there is one. */
  readonly reason: string | null;
  readonly reading: string;
}
