import type { DevelopmentLengthDefinition } from "../../model/development-length";
import { step } from "../../model/definition";
import type { Form } from "./form";
import { whether } from "../../model/yes-or-no";
import { smallBar, LIMITS, factors } from "./development-factors";

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
        whether("spacing and cover meet the limits of the more favorable case"),
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
        "length before the minimum applies",
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
