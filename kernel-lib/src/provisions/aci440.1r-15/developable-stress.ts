import { lesserCentreDistance } from "../model/bar-surroundings";
import { reported, required, step, type ProvisionDefinition } from "../model/definition";

/**
 * Force developed by an FRP bar at a given embedment, 10.1:
 * f_fe = (sqrt(f'c)/alpha) [13.6 l_e/d_b + (C/d_b)(l_e/d_b) + 340] <= f_fu, N = n A_b f_fe (lb, in., psi).
 *
 * C is the lesser of the cover to the bar's centre and half the centre spacing, C/d_b not above 3.5; alpha is 1.5 when
 * more than 12 in. of fresh concrete lies below. The equation was fitted to beam-type tests of mostly cast-in bars and
 * covers splitting and pull-out; it was not made for bars in drilled holes.
 */
export const developableStress: ProvisionDefinition = {
  id: "aci440.1r-15/10.1",
  title: "Force developed by an FRP bar at its embedment",
  action: "tension",
  modes: ["bond", "splitting"],
  confidence: "H",
  levels: ["nominal"],
  limits: [
    required("10.1", "frp == 1", "for FRP bars only"),
    reported("10.1", "l_e_ratio >= 20", "an embedment of at least 20 diameters is recommended"),
    reported("10.1", "post_installed == 0", "the equation was fitted to cast-in bars, not to bars bonded into drilled holes"),
  ],
  steps: [
    lesserCentreDistance("C", "10.1"),
    step("C_ratio", "min(C / d_a, 3.5)", "number", "10.1", "C over diameter, not above 3.5"),
    step("l_e_ratio", "h_ef / d_a", "number", "10.1", "embedment in diameters"),
    step("alpha", "if(top_cast == 1, 1.5, 1)", "number", "10.1", "bar location factor"),
    step("f_fu", "C_E * f_u_cap", "stress", "6.2", "design strength of the bar; C_E = 1 compares with tests"),
    step("f_fe_raw", "sqrt(f_c) / alpha * (13.6 * l_e_ratio + C_ratio * l_e_ratio + 340)", "stress", "10.1", "stress developed, before the bar's strength limits it"),
    step("f_fe", "min(f_fe_raw, f_fu)", "stress", "10.1", "stress developed"),
    step("N_fe", "n_x * n_y * A_b * f_fe", "force", "10.1", "force developed"),
  ],
  capacity: "N_fe",
};

/** Rupture of the FRP bar in tension at its design strength, 6.2: N = n A_b C_E f_fu*. */
export const frpRupture: ProvisionDefinition = {
  id: "aci440.1r-15/6.2",
  title: "Rupture of the FRP bar in tension",
  action: "tension",
  modes: ["bar_rupture"],
  confidence: "H",
  levels: ["nominal", "design"],
  limits: [required("6.2", "frp == 1", "for FRP bars only")],
  steps: [
    step("f_fu", "C_E * f_u", "stress", "6.2", "strength of the bar; the guaranteed strength is mean less three standard deviations"),
    step("N_fu", "n_x * n_y * A_b * f_fu", "force", "6.2", "rupture force"),
  ],
  capacity: "N_fu",
  reduction: step("phi", "0.55", "number", "7.2.3", "strength reduction factor, tension-controlled"),
};
