import type { CodeDefinition, CodeOption } from "../../model/definition";
import { INCH_POUND, SI, type UnitSystem } from "../../model/unit-system";
import { meanSideFace } from "./side-face";
import { meanBreakoutShear, meanBreakoutTension, type MeanForm } from "./concrete-capacity";
import { whether } from "../../model/yes-or-no";
import { ANCHORS_AND_HEADS } from "../../model/tested-by";

/** Options of the mean models in the concrete capacity form. */
export const MEAN_OPTIONS = {
  crack_factor: {
    quantity: "number",
    value: 0.7,
    meaning: "factor for cracked concrete (0.7 from memory, to be checked; some take 0.75)",
    clause: "cracking",
  },
  headed_cast_in: {
    quantity: "number",
    value: 0,
    meaning: whether("a cast-in bar is treated as headed"),
    clause: "basic",
  },
  thin_member: {
    quantity: "number",
    value: 0,
    meaning: whether("the factor for thin members is applied"),
    clause: "thickness",
  },
} as const satisfies Readonly<Record<string, CodeOption>>;

/** What the form has on deep heads near an edge. */
interface Heads extends Pick<CodeDefinition, "options" | "provisions" | "covers"> {
  readonly gap: string;
}
const NO_HEADS: Heads = {
  options: {},
  provisions: [],
  covers: "",
  gap: "Side-face failure of heads: see the form with 200 mm cube strength (ccd-1995-cube).",
};

const model = (
  id: string,
  edition: string,
  system: UnitSystem,
  form: MeanForm,
  heads: Heads = NO_HEADS,
): CodeDefinition => ({
  id,
  title: "Concrete capacity method, mean loads (Fuchs, Eligehausen, Breen 1995)",
  edition,
  system,
  covers: `Mean breakout loads of single bars and groups, in tension and in shear toward an edge.${heads.covers}`,
  testedBy: ANCHORS_AND_HEADS,
  options: { ...MEAN_OPTIONS, ...heads.options },
  readings: [
    "Three or more near edges, and narrow, thin members: h_ef and c_1 are reduced as in ACI 318-19, 17.6.2.1.2 and 17.7.2.1.2, in areas, loads and factors, and never exceed the actual values (the form of the 1995 paper, without the spacing term, is from memory).",
    "Bars spaced farther apart than 3 h_ef or 3 c_1 do not act as a group: the capacities of the parts are added, and every part keeps the load eccentricity of the whole.",
    "The form with cylinder strength in psi is the default. The form with 200 mm cube strength in MPa is a separate code. They differ by at most 0.5 %.",
    "No factor for thin members is applied in shear, as in the 1995 paper (to be checked); option thin_member adds it. The factor for cracked concrete is 0.7 (to be checked).",
  ],
  jumps: [
    "At a spacing of 3 h_ef or 3 c_1 of a group near an edge: a bar that leaves the group is no longer reduced by the edge factor of the others, which raises the sum.",
    "An edge beyond 1.5 h_ef is no longer one of the three or more near edges. The reduced depth jumps where a fourth edge passes that distance.",
  ],
  provisions: [meanBreakoutTension(form), meanBreakoutShear(form), ...heads.provisions],
  gaps: [
    heads.gap,
    "Pryout: see code pryout-1995. Pullout of heads and hooks, splitting, combined failure of anchors, steel in shear: no published mean coefficient was found.",
    "Lightweight concrete: no factor is stated and none is applied.",
  ],
});

/** Coefficients with cylinder strength, psi: the default form. */
export const ccd = model("ccd-1995", "cylinder strength, lb, in., psi", INCH_POUND, {
  postInstalled: 35,
  headed: 40,
  edge: 13,
  strength: "f_c",
  strengthMeaning: "cylinder strength",
});

/** Coefficients with 200 mm cube strength, MPa. */
export const CUBE_FORM: MeanForm = {
  postInstalled: 13.5,
  headed: 15.5,
  edge: 1,
  strength: "f_c / 0.85",
  strengthMeaning: "200 mm cube strength, cylinder / 0.85",
};

/** The same with 200 mm cube strength; differs from the other form by up to 0.5 %. */
export const ccdCube = model("ccd-1995-cube", "200 mm cube strength, N, mm, MPa", SI, CUBE_FORM, {
  provisions: [meanSideFace],
  options: {
    A_brg: {
      quantity: "area",
      value: 0,
      meaning: "net bearing area of a cast-in head; 0 for a straight bar",
      clause: "side face",
    },
  },
  covers: " Side-face blowout of deep heads.",
  gap: "Side-face failure in the form with cylinder strength in psi.",
});

export { meanBreakoutTension } from "./concrete-capacity";
