import { barYield } from "../en1992-1-1/anchorage-2004";
import { concreteCone } from "../en1992-4-2018/concrete-cone";
import { OPTIONS } from "../en1992-4-2018/options";
import { required, type CodeDefinition } from "../../model/definition";
import { ANCHORS_AND_HEADS } from "../../model/tested-by";
import { SI } from "../../model/unit-system";
import { bondSplitting, SPLITTING_OPTIONS } from "./bond-splitting";

const { gamma_c, gamma_inst, headed_cast_in, dense_reinforcement, compression_lever_arm } = OPTIONS;

/**
 * European technical report on reinforcing bars bonded into drilled holes with improved
 * bond-splitting behaviour.
 */
export const eotaTr069: CodeDefinition = {
  id: "eota-tr069-2019",
  title: "EOTA TR 069, bars bonded into drilled holes with improved bond-splitting behaviour",
  edition: "2019; needs the values of the product assessment as options",
  system: SI,
  covers:
    "Yield, concrete cone failure and bond-splitting of a bar anchored in tension; the lowest governs.",
  testedBy: ANCHORS_AND_HEADS,
  options: {
    ...SPLITTING_OPTIONS,
    f_yk: {
      quantity: "stress",
      value: 500,
      meaning: "characteristic yield strength for rows without a stated yield strength",
      clause: "yield",
    },
    gamma_c,
    gamma_inst,
    gamma_s: {
      quantity: "number",
      value: 1.15,
      meaning: "partial factor of steel",
      clause: "yield",
    },
    headed_cast_in,
    dense_reinforcement,
    compression_lever_arm,
  },
  readings: [
    "The whole report is from memory: no pages with its equations were found. The failure modes and the link to the product assessment are confirmed by public accounts of the report.",
    "The bond strength by pull-out is that of the row, cracked or not; the report uses that of uncracked concrete times a product factor.",
    "The concrete cone is that of EN 1992-4, 7.2.1.4, with the bonded length as the embedment.",
  ],
  provisions: [
    { ...barYield("eota-tr069-2019/yield", "yield", "yield"), confidence: "M" },
    {
      ...concreteCone,
      id: "eota-tr069-2019/cone",
      confidence: "M",
      limits: [
        required("cone", "post_installed == 1", "for bars bonded into drilled holes"),
        ...concreteCone.limits.slice(1),
      ],
    },
    bondSplitting,
  ],
  jumps: ["The concrete cone jumps as in EN 1992-4, 7.2.1.4; bond-splitting does not jump."],
  gaps: [
    "Transverse pressure or tension: no factor is applied.",
    "Exponents beyond 20 diameters other than lb1, and the minimum anchorage length of the reinforced-concrete code.",
    "Seismic and fire rules, service life of 100 years.",
  ],
};
