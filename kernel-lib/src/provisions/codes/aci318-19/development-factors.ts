import { lesserCentreDistance } from "../../model/bar-surroundings";
import { reported, required, step, type Limit, type Step } from "../../model/definition";
import type { Form } from "./form";

/** Limits of the clause, for the force and for the lengths. */
export const LIMITS: readonly Limit[] = [
  required("25.4.2", "steel == 1", "for deformed steel bars only"),
  required("25.4.2", "plain == 0", "for deformed bars only; plain bars are not covered"),
  required(
    "25.4.2",
    "post_installed == 0 || drilled_in_for_comparison == 1",
    "for cast-in bars; bars bonded into drilled holes follow 17.6.5 (option drilled_in_for_comparison computes 25.4.2 as well)",
  ),
  reported(
    "25.4.2",
    "post_installed == 0 || drilled_in_for_comparison == 0",
    "the clause was written for cast-in bars; for a bar bonded into a drilled hole the value is for comparison only and is not a capacity",
  ),
];

/**
 * Largest diameter of the smaller bars (No. 6, No. 19) and specified yield strength by grade, in
 * the form's units.
 */
export const smallBar = (form: Form): number => (form.name === "in-lb" ? 0.76 : 19.5);
/** Halfway between the grades: a measured yield strength lies above the grade it was sold as. */
const gradeUsed = (form: Form): string => {
  const [from60, from80] = form.name === "in-lb" ? [70_000, 90_000] : [485, 620];
  return `if(f_y_stated == 0, steel_grade, if(f_y_stated < ${String(from60)}, 60, if(f_y_stated < ${String(from80)}, 80, 100)))`;
};
export const yieldByGrade = (form: Form): string =>
  form.name === "in-lb"
    ? "1000 * steel_grade"
    : "if(steel_grade <= 40, 280, if(steel_grade <= 60, 420, if(steel_grade <= 80, 550, 690)))";

/** Factors and confinement of 25.4.2 that force and lengths share. */
export function factors(form: Form): Step[] {
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
      "grade of the bar, ksi; where a yield strength is stated, the nearest grade",
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
      "product of the factors, psi_t psi_e at most 1.7",
    ),
    step("lambda_d", "if(lightweight == 1, 0.75, 1)", "number", "25.4.2.5", "lightweight factor"),
    lesserCentreDistance("c_b", "25.4.2.4"),
    step(
      "confinement",
      "min((c_b + transverse_index) / d_a, 2.5)",
      "number",
      "25.4.2.4",
      "confinement term, at most 2.5",
    ),
    step(
      "root_f_c",
      `min(sqrt(f_c), ${form.rootCap})`,
      "number",
      "25.4.1.4",
      "square root of the concrete strength, limited",
    ),
  ];
}
