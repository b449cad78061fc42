import { meanBondStress } from "../combined-cone-bond/cone-with-bond";
import { step, type Step } from "../../model/definition";

const GROUPS = "groups and edges";

/**
 * Steps of uniform bond up to N_tau without the group factor. Beside another calculation the
 * symbols that both would use end in b, and of bars apart in bond the ground between them is left
 * out.
 */
function uniformBond(own: boolean): Step[] {
  const b = own ? "" : "_b";
  const near = (c: string): string => `min(${c}, c_cr${b})`;
  const between = (side: "x" | "y"): string => (own ? `s_${side}` : `min(s_${side}, s_cr${b})`);
  const across = `${near("c_1")} + (n_x - 1) * ${between("x")} + ${near("c_3")}`;
  const along = `${near("c_2")} + (n_y - 1) * ${between("y")} + ${near("c_4")}`;
  return [
    meanBondStress,
    step(
      "N_tau_0",
      "tau_m * pi * d_a * h_ef",
      "force",
      "uniform bond",
      "mean bond load of one bar remote from edges",
    ),
    step(
      `s_cr${b}`,
      "min(20 * d_a * sqrt(tau_m / 10), 3 * h_ef)",
      "length",
      GROUPS,
      "critical spacing of bars",
    ),
    step(
      `c_cr${b}`,
      `s_cr${b} / 2`,
      "length",
      GROUPS,
      "edge distance beyond which an edge has no effect",
    ),
    step("A_N_0", `s_cr${b}^2`, "area", GROUPS, "influence area of one bar remote from edges"),
    step(
      `A_N${b}`,
      `min((${across}) * (${along}), n_x * n_y * A_N_0)`,
      "area",
      GROUPS,
      "influence area of the group",
    ),
    step("c_least", "min(c_1, c_2, c_3, c_4)", "length", GROUPS, "minimum edge distance"),
    step(
      "psi_s",
      `if(c_least >= c_cr${b}, 1, 0.7 + 0.3 * c_least / c_cr${b})`,
      "number",
      GROUPS,
      "edge factor",
    ),
    step(
      `psi_ec${b}`,
      `1 / (1 + 2 * e_x / s_cr${b}) * (1 / (1 + 2 * e_y / s_cr${b}))`,
      "number",
      GROUPS,
      "eccentricity factor",
    ),
  ];
}

const load = (b: string, group: string): Step =>
  step(
    "N_tau",
    `N_tau_0 * (A_N${b} / A_N_0) * psi_s * psi_ec${b}${group}`,
    "force",
    "uniform bond",
    "mean bond load",
  );

/** Steps that stand beside those of the cone in another provision. */
export const uniformBondBeside: readonly Step[] = [...uniformBond(false), load("_b", "")];

/** Steps of the model itself. */
export const uniformBondSteps: readonly Step[] = [...uniformBond(true), load("", "")];

/**
 * The same with the group factor of closely spaced bars (Eligehausen, Cook, Appl 2006): psi_g =
 * psi_g0 + sqrt(s/s_cr) (1 - psi_g0), at least 1, with psi_g0 = sqrt(n) - (sqrt(n) - 1)
 * (tau/tau_max)^1.5 and tau_max = 13.5 sqrt(h_ef f_cc,200) / (pi d), the bond stress at which the
 * mean cone governs; the mean of the two spacings where they differ.
 */
export const groupedBondSteps: readonly Step[] = [
  ...uniformBond(true),
  step(
    "tau_max",
    "if(cracked == 1, crack_factor, 1) * 13.5 * sqrt(h_ef * f_c / 0.85) / (pi * d_a)",
    "stress",
    GROUPS,
    "bond stress at which the mean cone governs",
  ),
  step(
    "psi_g_0",
    "max(1, sqrt(n_x * n_y) - (sqrt(n_x * n_y) - 1) * (tau_m / tau_max)^1.5)",
    "number",
    GROUPS,
    "group factor of bars acting together",
  ),
  step(
    "s_mean",
    "if(n_x > 1 && n_y > 1, (s_x + s_y) / 2, max(s_x, s_y))",
    "length",
    GROUPS,
    "mean spacing of the group",
  ),
  step(
    "psi_g",
    "max(1, psi_g_0 + sqrt(min(1, s_mean / s_cr)) * (1 - psi_g_0))",
    "number",
    GROUPS,
    "group factor",
  ),
  load("", " * psi_g"),
];
