import { required, step, type ProvisionDefinition, type Step } from "../../model/definition";

const near = (c: string): string => `min(${c}, 1.5 * h_ef_prime)`;
const closer = (c: string): string => `${c} < 1.5 * h_ef`;
const EDGES = ["c_1", "c_2", "c_3", "c_4"];

/** Coefficients of the mean model: with cylinder strength (psi) or 200 mm cube strength (MPa). */
export interface MeanForm {
  readonly postInstalled: number;
  readonly headed: number;
  readonly edge: number;
  /** Formula for the concrete strength the coefficients belong to. */
  readonly strength: string;
  readonly strengthMeaning: string;
}

const strengthStep = (form: MeanForm): Step =>
  step("f_used", form.strength, "stress", "basic", form.strengthMeaning);

/**
 * Mean concrete breakout load in tension, concrete capacity method (Fuchs, Eligehausen, Breen
 * 1995): N_um = k sqrt(f) h'^1.5 (A_N/A_No) psi_ec psi_ed, k = 35 post-installed, 40 headed (psi,
 * in., lb), times 0.7 when cracked. h' is h_ef, where three or more edges are nearer than 1.5 h_ef
 * at most max(c_max/1.5, s/3) of those.
 */
export const meanBreakoutTension = (form: MeanForm): ProvisionDefinition => ({
  id: "ccd-1995/tension",
  title: "Mean concrete breakout load in tension, concrete capacity method",
  action: "tension",
  modes: ["concrete_breakout"],
  confidence: "H",
  levels: ["expected"],
  limits: [
    required(
      "basic",
      "post_installed == 1 || headed_cast_in == 1",
      "a straight cast-in bar has no head; option headed_cast_in treats it as headed",
    ),
  ],
  steps: [
    strengthStep(form),
    step("s_cr", "3 * h_ef", "length", "areas", "critical spacing of bars"),
    step(
      "near_edges",
      EDGES.map((c) => `(${closer(c)})`).join(" + "),
      "number",
      "many edges",
      "number of edges closer than 1.5 h_ef",
    ),
    step(
      "c_max",
      `max(${EDGES.map((c) => `if(${closer(c)}, ${c}, 0)`).join(", ")})`,
      "length",
      "many edges",
      "largest edge distance among those",
    ),
    step(
      "h_ef_prime",
      "if(near_edges >= 3, min(h_ef, max(c_max / 1.5, s_x / 3, s_y / 3)), h_ef)",
      "length",
      "many edges",
      "embedment used, reduced with three or more near edges",
    ),
    step(
      "A_No",
      "9 * h_ef_prime^2",
      "area",
      "areas",
      "projected area of one bar remote from edges",
    ),
    step(
      "A_N_rect",
      `(${near("c_1")} + (n_x - 1) * s_x + ${near("c_3")}) * (${near("c_2")} + (n_y - 1) * s_y + ${near("c_4")})`,
      "area",
      "areas",
      "projected rectangle of the group, limited by the edges",
    ),
    step("A_N", "min(A_N_rect, n_x * n_y * A_No)", "area", "areas", "projected area of the group"),
    step(
      "N_uo",
      `if(post_installed == 1, ${form.postInstalled}, ${form.headed}) * sqrt(f_used) * h_ef_prime^1.5`,
      "force",
      "basic",
      "mean load of one bar remote from edges, uncracked",
    ),
    step(
      "psi_ec",
      "1 / (1 + e_x / (1.5 * h_ef_prime)) * (1 / (1 + e_y / (1.5 * h_ef_prime)))",
      "number",
      "eccentricity",
      "eccentricity factor",
    ),
    step("c_min", "min(c_1, c_2, c_3, c_4)", "length", "edge", "minimum edge distance"),
    step(
      "psi_ed",
      "if(c_min >= 1.5 * h_ef_prime, 1, 0.7 + 0.3 * c_min / (1.5 * h_ef_prime))",
      "number",
      "edge",
      "edge factor",
    ),
    step(
      "psi_cr",
      "if(cracked == 1, crack_factor, 1)",
      "number",
      "cracking",
      "factor for cracked concrete",
    ),
    step(
      "N_um",
      "A_N / A_No * psi_ec * psi_ed * psi_cr * N_uo",
      "force",
      "basic",
      "mean breakout load",
    ),
  ],
  capacity: "N_um",
  split: { x: "s_cr", y: "s_cr" },
});

/**
 * Mean concrete edge breakout load in shear, concrete capacity method:
 * V_um = k (l/d)^0.2 sqrt(d) sqrt(f) c'^1.5 (A_V/A_Vo) psi_ec psi_ed, k = 13 (psi, in., lb), l =
 * min(h_ef, 8 d). c' is c_1, in a member both narrow and thin at most max(c_2/1.5, h_a/1.5, s/3).
 * The 1995 paper has no factor for thin members (to be checked against a licensed copy); option
 * thin_member adds it.
 */
export const meanBreakoutShear = (form: MeanForm): ProvisionDefinition => ({
  id: "ccd-1995/shear",
  title: "Mean concrete edge breakout load in shear, concrete capacity method",
  action: "shear",
  modes: ["concrete_edge_breakout"],
  confidence: "H",
  levels: ["expected"],
  limits: [
    required(
      "basic",
      "c_1 < 1e6",
      "edge 1 is remote, so concrete breakout toward it does not apply",
    ),
  ],
  steps: [
    strengthStep(form),
    step("s_cr", "3 * c_1", "length", "areas", "critical spacing of bars"),
    step(
      "narrow_and_thin",
      "c_2 < 1.5 * c_1 && c_4 < 1.5 * c_1 && h_a < 1.5 * c_1",
      "number",
      "many edges",
      "1 where both side edge distances and the thickness are less than 1.5 c_1",
    ),
    step(
      "c_1_prime",
      "if(narrow_and_thin, min(c_1, max(c_2 / 1.5, c_4 / 1.5, h_a / 1.5, s_y / 3)), c_1)",
      "length",
      "many edges",
      "edge distance used, reduced in a narrow thin member",
    ),
    step(
      "A_Vo",
      "4.5 * c_1_prime^2",
      "area",
      "areas",
      "projected area of one bar in a deep wide member",
    ),
    step(
      "A_V_rect",
      "(min(c_2, 1.5 * c_1_prime) + (n_y - 1) * s_y + min(c_4, 1.5 * c_1_prime)) * min(h_a, 1.5 * c_1_prime)",
      "area",
      "areas",
      "projected rectangle on the edge face",
    ),
    step("A_V", "min(A_V_rect, n_y * A_Vo)", "area", "areas", "projected area of the row"),
    step("l", "min(h_ef, 8 * d_a)", "length", "basic", "load-bearing length"),
    step(
      "V_uo",
      `${form.edge} * (l / d_a)^0.2 * sqrt(d_a) * sqrt(f_used) * c_1_prime^1.5`,
      "force",
      "basic",
      "mean load of one bar, uncracked",
    ),
    step(
      "psi_ec",
      "1 / (1 + e_y / (1.5 * c_1_prime))",
      "number",
      "eccentricity",
      "eccentricity factor",
    ),
    step(
      "c_side",
      "min(c_2, c_4)",
      "length",
      "edge",
      "smaller edge distance perpendicular to the load",
    ),
    step(
      "psi_ed",
      "if(c_side >= 1.5 * c_1_prime, 1, 0.7 + 0.3 * c_side / (1.5 * c_1_prime))",
      "number",
      "edge",
      "edge factor",
    ),
    step(
      "psi_h",
      "if(thin_member == 1, max(1, sqrt(1.5 * c_1_prime / h_a)), 1)",
      "number",
      "thickness",
      "factor for thin members, with option thin_member only",
    ),
    step(
      "psi_cr",
      "if(cracked == 1, crack_factor, 1)",
      "number",
      "cracking",
      "factor for cracked concrete",
    ),
    step(
      "V_um",
      "A_V / A_Vo * psi_ec * psi_ed * psi_h * psi_cr * V_uo",
      "force",
      "basic",
      "mean edge breakout load",
    ),
  ],
  capacity: "V_um",
  split: { y: "s_cr" },
});
