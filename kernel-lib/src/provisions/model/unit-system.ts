import { MM2_PER_IN2, MM_PER_INCH, MPA_PER_PSI, N_PER_LBF } from "../../units";

/** What a symbol measures; the unit system says in which unit it is written. */
export type Quantity =
  | "length"
  | "area"
  | "force"
  | "stress"
  | "modulus"
  | "number"
  | "slip"
  | "section_modulus"
  | "moment";

/**
 * The unit in which an edition writes each quantity, and the size of that unit in the library's own
 * (N, mm, MPa).
 */
export interface UnitSystem {
  readonly name: string;
  readonly unit: Readonly<Record<Quantity, string>>;
  readonly inSi: Readonly<Record<Quantity, number>>;
}

/** Newton, millimetre, megapascal: the library's own units. */
export const SI: UnitSystem = {
  name: "N, mm, MPa",
  unit: {
    length: "mm",
    area: "mm²",
    force: "N",
    stress: "MPa",
    modulus: "MPa",
    number: "",
    slip: "mm",
    section_modulus: "mm³",
    moment: "N mm",
  },
  inSi: {
    length: 1,
    area: 1,
    force: 1,
    stress: 1,
    modulus: 1,
    number: 1,
    slip: 1,
    section_modulus: 1,
    moment: 1,
  },
};

/** Inch, pound, psi. */
export const INCH_POUND: UnitSystem = {
  name: "lb, in., psi",
  unit: {
    length: "in.",
    area: "in.²",
    force: "lb",
    stress: "psi",
    modulus: "psi",
    number: "",
    slip: "in.",
    section_modulus: "in.³",
    moment: "lb in.",
  },
  inSi: {
    length: MM_PER_INCH,
    area: MM2_PER_IN2,
    force: N_PER_LBF,
    stress: MPA_PER_PSI,
    modulus: MPA_PER_PSI,
    number: 1,
    slip: MM_PER_INCH,
    section_modulus: MM_PER_INCH ** 3,
    moment: N_PER_LBF * MM_PER_INCH,
  },
};

/** Inch, kip, ksi. */
export const INCH_KIP: UnitSystem = {
  name: "kip, in., ksi",
  unit: {
    length: "in.",
    area: "in.²",
    force: "kip",
    stress: "ksi",
    modulus: "ksi",
    number: "",
    slip: "in.",
    section_modulus: "in.³",
    moment: "kip in.",
  },
  inSi: {
    length: MM_PER_INCH,
    area: MM2_PER_IN2,
    force: 1000 * N_PER_LBF,
    stress: 1000 * MPA_PER_PSI,
    modulus: 1000 * MPA_PER_PSI,
    number: 1,
    slip: MM_PER_INCH,
    section_modulus: MM_PER_INCH ** 3,
    moment: 1000 * N_PER_LBF * MM_PER_INCH,
  },
};
