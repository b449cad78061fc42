import { readDatasets } from "../../../kernel-lib/src/dataset";
import { type Addition, type ProposedChange } from "../../../kernel-lib/src/proposals";
import {
  code,
  step,
  type CodeDefinition,
  type ProvisionDefinition,
} from "../../../kernel-lib/src/provisions";

/** Every shape of a proposal, on the demonstration: id, changes, and the clauses concerned. */
export const present = code("aci318-19");
export const { tests } = await readDatasets(["datasets/demo"]);
export const provision = (id: string, of: CodeDefinition = present): ProvisionDefinition =>
  of.provisions.find((one) => one.id === `aci318-19/${id}`)!;

const shared = { title: "Trial", says: "s", rationale: "r", derivation: "d", evidence: "e" };
export const factor = (
  clause: string,
  symbol: string,
  value: string,
  where = "frp == 1",
  alsoChanges?: readonly string[],
): ProposedChange => ({
  ...shared,
  id: symbol,
  changes: `aci318-19/${clause}`,
  ...(alsoChanges ? { alsoChanges: alsoChanges.map((one) => `aci318-19/${one}`) } : {}),
  symbol,
  where,
  factor: value,
});
export const edges = ["17.7.2.1(c)-edge2", "17.7.2.1(c)-edge4"];
export const bond = factor("17.6.5", "psi_FRP_Na", "0.75");
export const addition: Addition = {
  ...shared,
  kind: "addition",
  id: "new",
  provision: {
    ...provision("frp-transverse-shear"),
    id: "aci318-19/17.7.1.3",
    title: "FRP bar in shear",
    steps: [
      step("f_used", "0.85 * f_v", "stress", "17.7.1.3", "transverse shear strength used"),
      step("V_FRP", "n_x * n_y * A_b * f_used", "force", "17.7.1.3", "strength in shear"),
    ],
    capacity: "V_FRP",
  },
};

/** Shapes of a proposal, and the provisions whose capacity it may alter. */
export const shapes: readonly (readonly [string, readonly ProposedChange[], readonly string[]])[] =
  [
    ["a factor, which pryout draws on", [bond], ["17.6.5", "17.7.3"]],
    [
      "two factors, of which one provision uses the result of the other",
      [bond, factor("17.7.3", "psi_FRP_cp", "0.9")],
      ["17.6.5", "17.7.3"],
    ],
    [
      "a size rule, a power of the diameter, with its family",
      [factor("17.7.2", "psi_FRP_V", "min(1, 0.64 * (d_a / 0.374)^0.36)", "frp == 1", edges)],
      ["17.7.2", ...edges],
    ],
    [
      "a size rule of two steps",
      [factor("17.7.3", "psi_FRP_cp", "if(d_a <= 0.625, 0.9, 0.7)")],
      ["17.7.3"],
    ],
    [
      "a factor for each class",
      [
        factor("17.6.5", "psi_Na_gfrp", "0.85", "gfrp == 1"),
        factor("17.6.5", "psi_Na_bfrp", "0.7", "bfrp == 1"),
      ],
      ["17.6.5", "17.7.3"],
    ],
    [
      "a factor where a limit holds",
      [factor("17.6.2", "psi_N", "0.8", "frp == 1 && d_a > 0.5")],
      ["17.6.2", "17.7.3"],
    ],
    [
      "withdrawn",
      [
        {
          ...shared,
          kind: "restriction",
          id: "no",
          changes: "aci318-19/17.6.5",
          where: "bfrp == 1",
        },
      ],
      ["17.6.5", "17.7.3"],
    ],
    ["an added provision", [addition], ["17.7.1.3"]],
  ];
