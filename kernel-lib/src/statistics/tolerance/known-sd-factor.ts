import { normalQuantile } from "../special/normal-integral";
import type { ToleranceQuestion } from "./tolerance-factor";
import { requireQuestion } from "./tolerance-factor";

/**
 * One-sided tolerance factor where the SD is known: K = z + z_conf/√n, z = Φ⁻¹(1 − fractile).
 * @example knownSdToleranceFactor({ n: 5 }) // 2.2180
 */
export function knownSdToleranceFactor(question: ToleranceQuestion): number {
  const { n, fractile = 0.05, confidence = 0.9 } = question;
  requireQuestion("knownSdToleranceFactor", n, fractile, confidence);
  return -normalQuantile(fractile) + normalQuantile(confidence) / Math.sqrt(n);
}
