import type { CodeDefinition, CodeOption } from "../model/definition";
import { INCH_POUND, SI, type UnitSystem } from "../model/unit-system";
import { meanBreakoutShear, meanBreakoutTension, type MeanForm } from "./concrete-capacity";

/** Options of the mean models in the concrete capacity form. */
export const MEAN_OPTIONS = {
  crack_factor: { quantity: "number", value: 0.7, meaning: "factor for cracked concrete (0.7 from memory, to be checked; some take 0.75)", clause: "cracking" },
  headed_cast_in: { quantity: "number", value: 0, meaning: "1 when a cast-in bar is to be computed as if it were headed, else 0", clause: "basic" },
  thin_member: { quantity: "number", value: 0, meaning: "1 when the factor for thin members is to be applied, else 0", clause: "thickness" },
} as const satisfies Readonly<Record<string, CodeOption>>;

const model = (id: string, edition: string, system: UnitSystem, form: MeanForm): CodeDefinition => ({
  id,
  title: "Concrete capacity method, mean loads (Fuchs, Eligehausen, Breen 1995)",
  edition,
  system,
  covers: "Mean breakout loads in tension and, towards an edge, in shear; single bars and groups.",
  options: MEAN_OPTIONS,
  readings: [
    "The form with cylinder strength and psi is the default, that with 200 mm cube strength and MPa a code of its own; they differ by up to 0.5 %.",
    "No factor for thin members in shear, as in the 1995 paper (to be checked); option thin_member adds it. Cracked concrete 0.7 (to be checked).",
  ],
  provisions: [meanBreakoutTension(form), meanBreakoutShear(form)],
  gaps: ["Pryout and side-face failure of heads are not part of the model here."],
});

/** Coefficients with cylinder strength, psi: the default form. */
export const ccd = model("ccd-1995", "cylinder strength, lb, in., psi", INCH_POUND, {
  postInstalled: 35, headed: 40, edge: 13, strength: "f_c", strengthMeaning: "cylinder strength",
});

/** Coefficients with 200 mm cube strength, MPa. */
export const CUBE_FORM: MeanForm = { postInstalled: 13.5, headed: 15.5, edge: 1, strength: "f_c / 0.85", strengthMeaning: "200 mm cube strength, cylinder / 0.85" };

/** The same with 200 mm cube strength; differs from the other form by up to 0.5 %. */
export const ccdCube = model("ccd-1995-cube", "200 mm cube strength, N, mm, MPa", SI, CUBE_FORM);

export { meanBreakoutTension } from "./concrete-capacity";
