import { lesserCentreDistance } from "../../model/bar-surroundings";
import type { DevelopmentLengthDefinition } from "../../model/development-length";
import {
  reported,
  required,
  step,
  type CodeOption,
  type Limit,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";
import type { Form } from "./form";
import { whether } from "../../model/yes-or-no";
import { DEVELOPED_BARS } from "../../model/tested-by";

/** What development of bars asks of the user beside the options of Chapter 17. */
export const DEVELOPMENT_OPTIONS: Readonly<Record<string, CodeOption>> = {
  confining_stirrups: {
    quantity: "number",
    value: 0,
    meaning: whether(
      "stirrups of at least the code's minimum confine bars spaced one diameter, for the simplified length",
    ),
    clause: "25.4.2.3",
  },
  drilled_in_for_comparison: {
    quantity: "number",
    value: 0,
    meaning: whether(
      "25.4.2 is to be computed for bars bonded into drilled holes as well, for comparison only",
    ),
    clause: "25.4.2",
  },
  steel_grade: {
    quantity: "number",
    value: 60,
    meaning:
      "specified grade of the steel bar, ksi: 40, 60, 80 or 100; for rows that state no yield strength",
    clause: "25.4.2.5",
  },
};

const LIMITS: readonly Limit[] = [
  required("25.4.2", "steel == 1", "for deformed steel bars only"),
  required("25.4.2", "plain == 0", "for deformed bars; a plain bar has no value"),
  required(
    "25.4.2",
    "post_installed == 0 || drilled_in_for_comparison == 1",
    "for cast-in bars; a bar bonded into a drilled hole follows 17.6.5 (option drilled_in_for_comparison computes it beside that)",
  ),
  reported(
    "25.4.2",
    "post_installed == 0 || drilled_in_for_comparison == 0",
    "the clause was made for cast-in bars; for a bar bonded into a drilled hole its value is a comparison and no capacity",
  ),
];

/**
 * Largest diameter of the smaller bars (No. 6, No. 19) and specified yield strength by grade, in
 * the form's units.
 */
const smallBar = (form: Form): number => (form.name === "in-lb" ? 0.76 : 19.5);
/** Halfway between the grades: a measured yield strength lies above the grade it was sold as. */
const gradeUsed = (form: Form): string => {
  const [from60, from80] = form.name === "in-lb" ? [70_000, 90_000] : [485, 620];
  return `if(f_y_stated == 0, steel_grade, if(f_y_stated < ${String(from60)}, 60, if(f_y_stated < ${String(from80)}, 80, 100)))`;
};
const yieldByGrade = (form: Form): string =>
  form.name === "in-lb"
    ? "1000 * steel_grade"
    : "if(steel_grade <= 40, 280, if(steel_grade <= 60, 420, if(steel_grade <= 80, 550, 690)))";

function factors(form: Form): Step[] {
  return [
    step("psi_t", "if(top_cast == 1, 1.3, 1)", "number", "25.4.2.5", "casting position factor"),
    step(
      "psi_e",
      "if(coated_bar == 1, 1.5, if(coated_bar == 2, 1.2, 1))",
      "number",
      "25.4.2.5",
      "coating factor",
    ),
    step("psi_s", `if(d_a <= ${smallBar(form)}, 0.8, 1)`, "number", "25.4.2.5", "size factor"),
    step(
      "grade",
      gradeUsed(form),
      "number",
      "25.4.2.5",
      "grade of the bar, ksi; of a stated yield strength the nearest",
    ),
    step(
      "psi_g",
      "if(grade <= 60, 1, if(grade <= 80, 1.15, 1.3))",
      "number",
      "25.4.2.5",
      "grade factor",
    ),
    step(
      "psi_all",
      "min(psi_t * psi_e, 1.7) * psi_s * psi_g",
      "number",
      "25.4.2.5",
      "product of the factors, psi_t psi_e not above 1.7",
    ),
    step("lambda_d", "if(lightweight == 1, 0.75, 1)", "number", "25.4.2.5", "lightweight factor"),
    lesserCentreDistance("c_b", "25.4.2.4"),
    step(
      "confinement",
      "min((c_b + transverse_index) / d_a, 2.5)",
      "number",
      "25.4.2.4",
      "confinement term, not above 2.5",
    ),
    step(
      "root_f_c",
      `min(sqrt(f_c), ${form.rootCap})`,
      "number",
      "25.4.1.4",
      "root of the concrete strength, limited",
    ),
  ];
}

/**
 * Force developed by a deformed bar at its embedment, 25.4.2.4 solved for the stress:
 * f_s = (40/3) lambda sqrt(f'c) [(c_b + K_tr)/d_b] (l_e/d_b) / (psi_t psi_e psi_s psi_g), not above
 * f_y (lb, in., psi; metric form with 1.1). A code-level value, not a mean.
 */
export const developedForce = (form: Form): ProvisionDefinition => ({
  id: "aci318-19/25.4.2",
  title: "Force developed by a deformed steel bar at its embedment",
  action: "tension",
  modes: ["bond", "splitting"],
  testedBy: DEVELOPED_BARS,
  confidence: "H",
  levels: ["nominal"],
  limits: [
    ...LIMITS,
    reported(
      "25.4.2.1",
      `h_ef >= ${form.leastDevelopment}`,
      "a development length is at least 12 in. (300 mm)",
    ),
  ],
  steps: [
    ...factors(form),
    step(
      "f_s_raw",
      `${form.development} * lambda_d * root_f_c * confinement * (h_ef / d_a) / psi_all`,
      "stress",
      "25.4.2.4",
      "stress developed, before yield limits it",
    ),
    step(
      "f_y_used",
      `if(f_y_stated > 0, f_y_stated, ${yieldByGrade(form)})`,
      "stress",
      "20.2.2",
      "yield strength: the row's, else that of the grade",
    ),
    step("f_s", "min(f_s_raw, f_y_used)", "stress", "25.4.2.4", "stress developed"),
    step(
      "u_b",
      "f_s * d_a / (4 * h_ef)",
      "stress",
      "25.4.2.4",
      "uniform bond stress it stands for",
    ),
    step("N_s", "n_x * n_y * A_b * f_s", "force", "25.4.2.4", "force developed"),
  ],
  capacity: "N_s",
});

/**
 * Development length for a stress, 25.4.2.4: l_d = (3/40) f/(lambda sqrt(f'c)) psi / [(c_b +
 * K_tr)/d_b] d_b, at least 12 in. (300 mm).
 */
export const lengthForStress = (form: Form): DevelopmentLengthDefinition => ({
  id: "aci318-19/25.4.2",
  title: "Development length of a deformed steel bar",
  confidence: "H",
  limits: LIMITS,
  steps: [
    ...factors(form),
    step(
      "l_d_raw",
      `f_required * psi_all / (${form.development} * lambda_d * root_f_c * confinement) * d_a`,
      "length",
      "25.4.2.4",
      "length before the least length",
    ),
    step(
      "l_d",
      `max(l_d_raw, ${form.leastDevelopment})`,
      "length",
      "25.4.2.1",
      "development length",
    ),
  ],
  length: "l_d",
});

/**
 * Coefficients of the simplified length: small and larger bars with room about them, the same
 * without; in the form's units.
 */
const SIMPLIFIED = {
  "in-lb": ["25", "20", "50 / 3", "40 / 3"],
  metric: ["2.1", "1.7", "1.4", "1.1"],
} as const;

/**
 * Simplified development length, 25.4.2.3: l_d = f psi_t psi_e psi_g / (25 lambda sqrt(f'c)) d_b up
 * to No. 6, 20 from No. 7, with clear spacing of 2 d_b and cover of d_b (or stirrups, option
 * `confining_stirrups`); 50/3 and 40/3 otherwise. The metric form's 2.1, 1.7, 1.4 and 1.1 are to be
 * checked against a licensed copy.
 */
export const simplifiedLength = (form: Form): DevelopmentLengthDefinition => {
  const [small, large, smallTight, largeTight] = SIMPLIFIED[form.name];
  const bySize = (a: string, b: string): string => `if(d_a <= ${smallBar(form)}, ${a}, ${b})`;
  return {
    id: "aci318-19/25.4.2.3",
    title: "Simplified development length of a deformed steel bar",
    ...(form.name === "metric"
      ? ({
          confidence: "M",
          toCheck: "the metric form's rounded coefficients 2.1, 1.7, 1.4 and 1.1",
        } as const)
      : ({ confidence: "H" } as const)),
    limits: LIMITS,
    steps: [
      ...factors(form).filter(({ symbol }) =>
        ["psi_t", "psi_e", "grade", "psi_g", "lambda_d", "root_f_c"].includes(symbol),
      ),
      step(
        "room",
        "c_cover >= d_a && (s_clear >= 2 * d_a || (confining_stirrups == 1 && s_clear >= d_a))",
        "number",
        "25.4.2.3",
        whether("spacing and cover leave room"),
      ),
      step(
        "coefficient",
        `if(room, ${bySize(small, large)}, ${bySize(smallTight, largeTight)})`,
        "number",
        "25.4.2.3",
        "coefficient",
      ),
      step(
        "l_d_raw",
        "f_required * min(psi_t * psi_e, 1.7) * psi_g / (coefficient * lambda_d * root_f_c) * d_a",
        "length",
        "25.4.2.3",
        "length before the least length",
      ),
      step(
        "l_d",
        `max(l_d_raw, ${form.leastDevelopment})`,
        "length",
        "25.4.2.1",
        "development length",
      ),
    ],
    length: "l_d",
  };
};
