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
    meaning: whether("a cast-in bar is to be computed as if it were headed"),
    clause: "basic",
  },
  thin_member: {
    quantity: "number",
    value: 0,
    meaning: whether("the factor for thin members is to be applied"),
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
  gap: "Side-face failure of heads: the form with 200 mm cube strength has it (ccd-1995-cube).",
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
  covers: `Mean breakout loads in tension and, towards an edge, in shear; single bars and groups.${heads.covers}`,
  testedBy: ANCHORS_AND_HEADS,
  options: { ...MEAN_OPTIONS, ...heads.options },
  readings: [
    "Three or more near edges, and members both narrow and thin: h_ef and c_1 are reduced as in ACI 318-19, 17.6.2.1.2 and 17.7.2.1.2, in areas, loads and factors alike, and never exceed the true ones (the 1995 paper's own form, without the spacing term, is from memory).",
    "Bars spaced beyond 3 h_ef or 3 c_1 are no group: the parts are added, and the load's eccentricity stays with every part.",
    "The form with cylinder strength and psi is the default, that with 200 mm cube strength and MPa a code of its own; they differ by up to 0.5 %.",
    "No factor for thin members in shear, as in the 1995 paper (to be checked); option thin_member adds it. Cracked concrete 0.7 (to be checked).",
  ],
  jumps: [
    "At a spacing of 3 h_ef or 3 c_1 of a group near an edge: a bar that parts from it loses the edge factor of the others, so the sum rises.",
    "An edge beyond 1.5 h_ef no longer counts among three or more near ones, so the reduced depth jumps where a fourth passes it.",
  ],
  provisions: [meanBreakoutTension(form), meanBreakoutShear(form), ...heads.provisions],
  gaps: [
    heads.gap,
    "Pryout: code pryout-1995 has it. Pullout of heads and hooks, splitting and combined failure of anchors, steel in shear: no published mean coefficient is known here.",
    "Lightweight concrete: no factor is stated, and none is counted.",
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
  gap: "Side-face failure in the form with cylinder strength and psi.",
});

export { meanBreakoutTension } from "./concrete-capacity";
