import { required, step, type ProvisionDefinition, type Step } from "../../model/definition";
import { headedPulloutReduction } from "./reduction-factors";
import { CAST_IN_HEADS } from "../../model/tested-by";

const castIn = required(
  "17.6.3",
  "post_installed == 0",
  "for cast-in heads and hooks; bars bonded into drilled holes follow 17.6.5",
);

/**
 * What both kinds of pullout share: a cast-in bar, and the number of bars and the cracking on the
 * basic strength of one.
 */
const pullout = (
  {
    id,
    title,
    limits,
    basic,
  }: Pick<ProvisionDefinition, "id" | "title" | "limits"> & { readonly basic: Step },
  strengthLimit: number,
): ProvisionDefinition => ({
  id,
  title,
  action: "tension",
  modes: ["bond"],
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [castIn, ...limits],
  testedBy: CAST_IN_HEADS,
  steps: [
    step(
      "f_c_used",
      `min(f_c, ${strengthLimit})`,
      "stress",
      "17.3.1",
      "concrete strength used, limited",
    ),
    basic,
    step(
      "psi_c_P",
      "if(cracked == 1, 1, 1.4)",
      "number",
      "17.6.3.3.1",
      "factor for uncracked concrete",
    ),
    step("N_pn", "n_x * n_y * psi_c_P * N_p", "force", "17.6.3.1", "nominal pullout strength"),
  ],
  capacity: "N_pn",
  reduction: headedPulloutReduction,
});

/**
 * Pullout of a headed cast-in bar in tension, 17.6.3: N_pn = n psi_c,P 8 A_brg f'c, psi_c,P = 1.4
 * uncracked.
 *
 * A_brg is the net bearing area of the head, given as option `A_brg`; without it (0) the bar is
 * straight and the clause does not apply. f'c is limited as in 17.3.1; the form holds in any
 * consistent units.
 */
export const headedPullout = (strengthLimit: number): ProvisionDefinition =>
  pullout(
    {
      id: "aci318-19/17.6.3.2.2a",
      title: "Pullout strength of headed cast-in bars in tension",
      limits: [
        required(
          "17.6.3.2.2",
          "A_brg > 0",
          "for headed bars; state the net bearing area of the head in option A_brg",
        ),
      ],
      basic: step(
        "N_p",
        "8 * A_brg * f_c_used",
        "force",
        "17.6.3.2.2a",
        "basic pullout strength of one head in cracked concrete",
      ),
    },
    strengthLimit,
  );

/**
 * Pullout of a hooked cast-in bar in tension, 17.6.3: N_pn = n psi_c,P 0.9 f'c e_h d_a for 3 d_a <=
 * e_h <= 4.5 d_a.
 *
 * e_h is given as option `e_h`; without it (0) the bar is straight and the clause does not apply.
 * The form holds in any consistent units.
 */
export const hookedPullout = (strengthLimit: number): ProvisionDefinition =>
  pullout(
    {
      id: "aci318-19/17.6.3.2.2b",
      title: "Pullout strength of hooked cast-in bars in tension",
      limits: [
        required(
          "17.6.3.2.2",
          "e_h > 0",
          "for hooked bars; state the distance from the inner face of the shaft to the tip in option e_h",
        ),
        required(
          "17.6.3.2.2",
          "e_h >= 3 * d_a && e_h <= 4.5 * d_a",
          "for hooks with e_h of 3 to 4.5 diameters",
        ),
      ],
      basic: step(
        "N_p",
        "0.9 * f_c_used * e_h * d_a",
        "force",
        "17.6.3.2.2b",
        "basic pullout strength of one hook in cracked concrete",
      ),
    },
    strengthLimit,
  );
