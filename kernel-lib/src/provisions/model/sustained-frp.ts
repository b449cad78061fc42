import { required, step, type ProvisionDefinition } from "./definition";
import type { Confidence } from "./levels";

/**
 * Bound on sustained tension of an FRP bar, so that it does not creep to rupture: N = n A_b k C_E
 * f_u, k a share by fibre. Stated only for sustained tension (option sustained): a short-term test
 * says nothing of it.
 * @param share formula of the share of the bar's strength
 * @param covered formula: the fibres for which a share is stated
 */
export const sustainedRupture = (
  code: string,
  clause: string,
  confidence: Confidence,
  share: string,
  covered: string,
  fibres: string,
): ProvisionDefinition => ({
  id: `${code}/creep-rupture`,
  title: "Limit on sustained tension of the FRP bar (creep rupture)",
  action: "tension",
  modes: ["bar_rupture"],
  confidence,
  levels: ["nominal"],
  limits: [
    required(clause, covered, `a limit is stated for ${fibres} only`),
    required(clause, "sustained >= 1", "for sustained tension only (option sustained)"),
  ],
  steps: [
    step(
      "k_creep",
      share,
      "number",
      clause,
      "fraction of the strength permitted in sustained tension",
    ),
    step(
      "f_fu",
      "C_E * f_u",
      "stress",
      clause,
      "strength of the bar; C_E = 1 for comparison with tests",
    ),
    step(
      "N_creep",
      "n_x * n_y * A_b * k_creep * f_fu",
      "force",
      clause,
      "limit on sustained tension",
    ),
  ],
  capacity: "N_creep",
});
