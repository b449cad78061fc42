import type { Random } from "../random";
import type { CensoredMaximum } from "./censored-likelihood";
import type { CensoredSample } from "./censored-profile";
import type { LocationScaleLaw } from "./location-scale-law";

export interface BoundQuestion {
  readonly sample: CensoredSample;
  readonly law: LocationScaleLaw;
  readonly maximum: CensoredMaximum;
  readonly z: number;
  readonly fractile: number;
  readonly confidence: number;
  /** The noncentral t factor is of normal laws only. */
  readonly weibull: boolean;
  readonly clusters: readonly (string | number)[] | null;
  readonly resamples: number;
  readonly random: Random;
}
