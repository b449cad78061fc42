import { MM_PER_INCH } from "../../units";

/**
 * Effective area of a threaded rod in tension, A_se = (pi/4) (d_a - 0.9743/n_t)^2 with n_t threads
 * an inch, mm² (the area that 17.6.1.2 and 17.7.1.2 of ACI 318-19 take). A reinforcing bar counts
 * with its nominal area instead.
 * @throws RangeError for a diameter or thread count that leaves no core
 * @example threadedArea(19.05, 10) // 215.8, which is 0.334 in.²
 */
export function threadedArea(diameter_mm: number, threadsPerInch: number): number {
  const core = diameter_mm - (0.9743 * MM_PER_INCH) / threadsPerInch;
  if (!(threadsPerInch > 0) || !(core > 0))
    throw new RangeError(
      `Diameter ${diameter_mm} mm with ${threadsPerInch} threads an inch: expected both above 0 and a core left.`,
    );
  return (Math.PI / 4) * core * core;
}
