import { lesserCentreDistance } from "../../model/bar-surroundings";
import { reported, required, step, type ProvisionDefinition } from "../../model/definition";

/**
 * Force developed by an FRP bar at a given embedment, 10.1:
 * f_fe = (sqrt(f'c)/alpha) [13.6 l_e/d_b + (C/d_b)(l_e/d_b) + 340] <= f_fu, N = n A_b f_fe (lb,
 * in., psi).
 *
 * C is the lesser of the cover to the bar's centre and half the centre spacing, C/d_b not above
 * 3.5; alpha is 1.5 when more than 12 in. of fresh concrete lies below. The equation was fitted to
 * beam-type tests of mostly cast-in bars and covers splitting and pull-out; it was not made for
 * bars in drilled holes.
 *
 * Below 20 diameters the stress falls linearly to zero, f_fe(l) = f_fe(20 d) l/(20 d); option
 * extrapolate_below_20_d takes the equation itself there. At 10 diameters the two differ by a
 * third.
 */
export const developableStress: ProvisionDefinition = {
  id: "aci440.1r-15/10.1",
  title: "Force developed by an FRP bar at its embedment",
  action: "tension",
  modes: ["bond", "splitting"],
  confidence: "M",
  toCheck:
    "the linear reduction below 20 diameters, reported in an abstract on the institute's portal (id 51740943); the rest is well known",
  searched: "November 2026",
  levels: ["nominal"],
  limits: [
    required("10.1", "frp == 1", "for FRP bars only"),
    reported(
      "10.1",
      "l_e_ratio >= 20 || extrapolate_below_20_d == 0",
      "for embedments of at least 20 diameters; the guide reduces the stress linearly below, where option extrapolate_below_20_d extrapolates the equation",
    ),
    reported(
      "10.1",
      "post_installed == 0",
      "the equation is based on tests of cast-in bars, not of bars bonded into drilled holes",
    ),
  ],
  steps: [
    lesserCentreDistance("C", "10.1"),
    step("C_ratio", "min(C / d_a, 3.5)", "number", "10.1", "C over diameter, at most 3.5"),
    step("l_e_ratio", "h_ef / d_a", "number", "10.1", "embedment in diameters"),
    step("alpha", "if(top_cast == 1, 1.5, 1)", "number", "10.1", "bar location factor"),
    step(
      "f_fu",
      "C_E * f_u_cap",
      "stress",
      "6.2",
      "design strength of the bar; C_E = 1 for comparison with tests",
    ),
    step(
      "l_e_used",
      "if(extrapolate_below_20_d == 1, l_e_ratio, max(l_e_ratio, 20))",
      "number",
      "10.1",
      "embedment in diameters, used in the equation",
    ),
    step(
      "f_fe_raw",
      "sqrt(f_c) / alpha * (13.6 * l_e_used + C_ratio * l_e_used + 340)",
      "stress",
      "10.1",
      "stress by the equation",
    ),
    step(
      "f_fe_full",
      "min(f_fe_raw, f_fu)",
      "stress",
      "10.1",
      "the same, limited by the bar strength",
    ),
    step(
      "f_fe",
      "f_fe_full * (l_e_ratio / l_e_used)",
      "stress",
      "10.1",
      "stress developed, linear in the embedment below 20 diameters",
    ),
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
    step(
      "f_fu",
      "C_E * f_u",
      "stress",
      "6.2",
      "strength of the bar; the guaranteed strength is the mean minus three standard deviations",
    ),
    step("N_fu", "n_x * n_y * A_b * f_fu", "force", "6.2", "rupture force"),
  ],
  capacity: "N_fu",
  reduction: step(
    "phi",
    "0.55",
    "number",
    "7.2.3",
    "strength reduction factor, tension-controlled",
  ),
};
