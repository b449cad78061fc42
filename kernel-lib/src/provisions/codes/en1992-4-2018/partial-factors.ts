import { step, type Step } from "../../model/definition";

const RATIO = "if(steel == 1, yield_ratio, 1)";

/**
 * 1 / gamma_Mc in tension with gamma_Mc = gamma_c gamma_inst; also for combined failure and
 * splitting, Table 4.1.
 */
export const concreteTensionFactor: Step = step(
  "reduction_Mc",
  "1 / (gamma_c * gamma_inst)",
  "number",
  "4.4",
  "reciprocal of the partial factor gamma_c gamma_inst",
);

/** 1 / gamma_Mc in shear, where gamma_inst = 1, Table 4.1. */
export const concreteShearFactor: Step = step(
  "reduction_Mc",
  "1 / gamma_c",
  "number",
  "4.4",
  "reciprocal of the partial factor gamma_c; gamma_inst is 1 in shear",
);

/**
 * 1 / gamma_Ms in tension, gamma_Ms = 1.2 / (f_yk/f_uk), at least 1.4. The code covers steel only;
 * for FRP the factor has to be given.
 */
export const steelTensionFactor: Step = step(
  "reduction_Ms",
  "1 / if(steel == 1, max(1.2 / yield_ratio, 1.4), gamma_Ms_frp)",
  "number",
  "4.4",
  "reciprocal of the partial factor of the bar in tension",
);

/**
 * 1 / gamma_Ms in shear: 1.0 / (f_yk/f_uk), at least 1.25, for f_uk to 800 MPa and a ratio to 0.8;
 * else 1.5.
 */
export const steelShearFactor: Step = step(
  "reduction_Ms",
  `1 / if(f_u <= 800 && (${RATIO}) <= 0.8, max(1 / (${RATIO}), 1.25), 1.5)`,
  "number",
  "4.4",
  "reciprocal of the partial factor of steel in shear",
);
