import type { Distribution } from "./distribution";
import { requirePositive } from "./distribution";
import { gamma } from "./gamma";

/**
 * Chi-squared distribution with ν degrees of freedom (gamma with shape ν/2 and scale 2).
 *
 * Accuracy: cdf and tails 1e-13 relative, quantile 1e-13.
 * @example chiSquared(4).upperQuantile(0.05) // 9.4877…
 */
export function chiSquared(degreesOfFreedom: number): Distribution {
  requirePositive(degreesOfFreedom, "degrees of freedom", "chiSquared");
  return {
    ...gamma(degreesOfFreedom / 2, 2),
    name: `chi-squared (${degreesOfFreedom} degrees of freedom)`,
  };
}
