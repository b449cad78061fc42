import { lesserClearDistance } from "../../model/bar-surroundings";
import type { DevelopmentLengthDefinition } from "../../model/development-length";
import {
  reported,
  required,
  step,
  type Limit,
  type ProvisionDefinition,
  type Step,
} from "../../model/definition";
import { SHORT_BOND_LENGTHS } from "../../model/tested-by";

const steelOnly = (clause: string): Limit[] => [
  required(
    clause,
    "steel == 1 && plain == 0",
    "for ribbed steel bars; the bond strength of FRP bars must be determined by tests",
  ),
  reported(
    clause,
    "post_installed == 0",
    "for cast-in bars, not for bars bonded into drilled holes",
  ),
];
const SHORT = (clause: string): Limit =>
  reported(
    clause,
    "h_ef <= 5 * d_a",
    "a local bond strength, nearly uniform only over bonded lengths of at most about 5 diameters",
  );

/**
 * Pull-out at the local bond strength, Table 6.1-1: tau_bmax = 2.5 sqrt(f_cm) in good, 1.25
 * sqrt(f_cm) in other bond conditions; N = n tau pi phi l (N, mm, MPa).
 */
export const localPullOut: ProvisionDefinition = {
  id: "fib-mc2010/6.1.1-pull-out",
  title: "Pull-out force at the local bond strength",
  action: "tension",
  modes: ["bond"],
  testedBy: SHORT_BOND_LENGTHS,
  confidence: "H",
  levels: ["expected"],
  limits: [...steelOnly("6.1.1"), SHORT("6.1.1")],
  steps: [
    step(
      "tau_b_max",
      "if(top_cast == 1, 1.25, 2.5) * sqrt(f_c)",
      "stress",
      "Table 6.1-1",
      "local bond strength, pull-out",
    ),
    step(
      "N_po",
      "n_x * n_y * tau_b_max * pi * d_a * h_ef",
      "force",
      "6.1.1",
      "pull-out force over a short length",
    ),
  ],
  capacity: "N_po",
};

/**
 * Splitting at the local bond strength, (6.1-5): tau_bu,split = eta_2 6.5 (f_cm/25)^0.25
 * (25/phi)^0.2 [(c_min/phi)^0.33 (c_max/c_min)^0.1 + k_m K_tr]; N = n tau pi phi l. As published:
 * the cap by the pull-out strength is printed beside it and taken with option splitting_capped.
 */
export const localSplitting: ProvisionDefinition = {
  id: "fib-mc2010/6.1.1-splitting",
  title: "Splitting force at the local bond strength",
  action: "tension",
  modes: ["splitting"],
  testedBy: SHORT_BOND_LENGTHS,
  confidence: "H",
  levels: ["expected"],
  limits: [...steelOnly("6.1.1"), SHORT("6.1.1")],
  steps: [
    lesserClearDistance("c_min", "6.1.1"),
    step(
      "tau_b_max",
      "if(top_cast == 1, 1.25, 2.5) * sqrt(f_c)",
      "stress",
      "Table 6.1-1",
      "local bond strength, pull-out",
    ),
    step(
      "tau_split",
      "if(top_cast == 1, 0.7, 1) * 6.5 * (f_c / 25)^0.25 * (25 / d_a)^0.2 * ((c_min / d_a)^0.33 * cover_ratio^0.1 + k_m * K_tr)",
      "stress",
      "(6.1-5)",
      "local bond strength, splitting, as published",
    ),
    step(
      "tau_capped",
      "min(tau_split, tau_b_max)",
      "stress",
      "6.1.1",
      "the same, limited by pull-out",
    ),
    step(
      "tau_used",
      "if(splitting_capped == 1, tau_capped, tau_split)",
      "stress",
      "6.1.1",
      "local bond strength used",
    ),
    step(
      "N_sp",
      "n_x * n_y * tau_used * pi * d_a * h_ef",
      "force",
      "6.1.1",
      "splitting force over a short length",
    ),
  ],
  capacity: "N_sp",
};

const ANCHORAGE: readonly Step[] = [
  lesserClearDistance("c_min", "6.1.3.3"),
  step(
    "f_reference",
    "54 * (f_c / 25)^0.25 * (25 / d_a)^0.2 * ((c_min / d_a)^0.25 * cover_ratio^0.1 + k_m * K_tr)",
    "stress",
    "(6.1-19)",
    "mean stress anchored over one diameter, by the power law",
  ),
];
const ANCHORAGE_LIMITS: readonly Limit[] = [
  ...steelOnly("6.1.3.3"),
  reported(
    "6.1.3.3",
    "f_c >= 15 && f_c <= 110",
    "fitted to mean concrete strengths of 15 to 110 MPa",
  ),
  reported(
    "6.1.3.3",
    "c_min >= 0.5 * d_a && c_min <= 3.5 * d_a",
    "fitted to covers of 0.5 to 3.5 diameters",
  ),
  reported(
    "6.1.3.3",
    "top_cast == 0",
    "for good bond conditions (from memory); no factor is applied for others",
  ),
  reported(
    "6.1.3.3",
    "cover_ratio <= 5 && K_tr <= 0.05",
    "fitted to c_max/c_min up to 5 and K_tr up to 0.05",
  ),
];

/**
 * Mean force anchored by a ribbed bar, (6.1-19): f_stm = 54 (f_cm/25)^0.25 (l_b/phi)^0.55
 * (25/phi)^0.2 [(c_min/phi)^0.25 (c_max/c_min)^0.1 + k_m K_tr] (N, mm, MPa). To be checked against
 * a licensed copy. Yield does not limit it here.
 */
export const meanAnchorage: ProvisionDefinition = {
  id: "fib-mc2010/6.1.3.3",
  title: "Mean force anchored by a ribbed steel bar",
  action: "tension",
  modes: ["splitting", "bond"],
  confidence: "M",
  searched: "November 2026",
  levels: ["expected"],
  limits: [
    ...ANCHORAGE_LIMITS,
    reported("6.1.3.3", "h_ef >= 10 * d_a", "fitted to bonded lengths of at least 10 diameters"),
  ],
  steps: [
    ...ANCHORAGE,
    step("f_stm", "f_reference * (h_ef / d_a)^0.55", "stress", "(6.1-19)", "mean stress anchored"),
    step("N_stm", "n_x * n_y * A_b * f_stm", "force", "(6.1-19)", "mean force anchored"),
  ],
  capacity: "N_stm",
};

/**
 * Length that anchors a stress on average, (6.1-19) solved for l_b. To be checked against a
 * licensed copy.
 */
export const meanLength: DevelopmentLengthDefinition = {
  id: "fib-mc2010/6.1.3.3",
  title: "Mean anchorage length of a ribbed steel bar",
  confidence: "M",
  searched: "November 2026",
  limits: ANCHORAGE_LIMITS,
  steps: [
    ...ANCHORAGE,
    step(
      "l_b",
      "d_a * (f_required / f_reference)^(1 / 0.55)",
      "length",
      "(6.1-19)",
      "mean anchorage length",
    ),
  ],
  length: "l_b",
};
