import { draftText } from "../../../kernel-lib/src/exports/draft";
import { beforeAfterOf, type Proposal } from "../../../kernel-lib/src/proposals";
import { code } from "../../../kernel-lib/src/provisions";
import { table } from "../../provisions/specimens";

/** A factor on bond of FRP bars, with tests invented for it. */
export const present = code("aci318-19");
const bars = (material: "gfrp" | "steel", loads: readonly number[]) =>
  loads.map((peak_load_kN, k) => ({
    series_id: `${material}${k}`,
    bar_material: material,
    failure_mode: "bond" as const,
    peak_load_kN,
  }));
export const tests = table(
  ...bars("gfrp", [26, 28, 30, 31, 33]),
  ...bars("steel", [40, 41, 42, 43, 44]),
);
export const proposal: Proposal = {
  id: "frp-bond",
  title: "FRP bars in bond",
  changes: "aci318-19/17.6.5",
  symbol: "psi_FRP_Na",
  where: "frp == 1 && d_a <= 0.75",
  factor: "0.6",
  says: "0.6 for FRP bars",
  rationale: "Bars of FRP reach less bond.",
  derivation: "It is the characteristic ratio.",
  evidence: "5 tests",
  limits: [{ column: "bar_diameter_mm", lower: 10, upper: 19 }],
};
export const change = beforeAfterOf(tests, present, [proposal], ["mode", "bar_material"]);
export const draft = draftText(proposal, { code: present, change });
