import type { CodeDefinition, ProvisionDefinition } from "../../model/definition";
import { barRupture, cone, uniformBond, uniformBondModel } from "../uniform-bond-1998";
import { groupedBondSteps } from "../uniform-bond-1998/steps";

/**
 * Mean bond load of bonded bars with the group factor of closely spaced ones (Eligehausen, Cook,
 * Appl 2006): the load of uniform bond (1998) times psi_g, see `groupedBondSteps` (N, mm, MPa).
 * From memory, to be checked against a copy.
 */
const groupedBond: ProvisionDefinition = {
  ...uniformBond,
  id: "uniform-bond-2006/bond",
  title: "Mean bond load, uniform bond stress with the group factor",
  confidence: "M",
  toCheck: "the group factor and the mean of unequal spacings used in it; the rest is well known",
  steps: groupedBondSteps,
  notes: ["For a single bar, the model is that of uniform-bond-1998."],
};

/** Uniform bond with the group factor of 2006, mean loads of bonded bars. */
export const uniformBond2006: CodeDefinition = {
  ...uniformBondModel,
  id: "uniform-bond-2006",
  title: "Uniform bond stress with the group factor, mean loads (Eligehausen, Cook, Appl 2006)",
  readings: [
    ...(uniformBondModel.readings ?? []).slice(0, 2),
    "The mean bond stress is that of the concrete of the row, cracked or not; the factor for cracking applies to the cone and to the bond stress at which the cone governs.",
    "The bond stress at which the cone governs uses the mean coefficient of post-installed bars, 13.5, for cast-in heads as well.",
  ],
  provisions: [
    groupedBond,
    { ...cone, id: "uniform-bond-2006/cone" },
    { ...barRupture, id: "uniform-bond-2006/bar-rupture" },
  ],
  gaps: ["Lightweight concrete: no factor is stated and none is applied."],
};
