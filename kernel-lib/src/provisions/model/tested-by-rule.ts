import type { Setup } from "../../dataset";

/**
 * How the bar came into the concrete; a cast-in bar counts as headed only where the code's option
 * `headed_cast_in` says so.
 */
export type TestedInstallation = "post_installed" | "cast_in" | "headed_cast_in";

/** Which tests a provision is judged by, and why by these. */
export interface TestedBy {
  readonly setups: readonly Setup[];
  readonly installations: readonly TestedInstallation[];
  readonly because: string;
}
