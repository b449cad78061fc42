import type { DevelopmentCase } from "../../../kernel-lib/src/provisions";
import { inch, psi } from "../specimens";
import type { WorkedLength } from "./case";
import { PRINTED_LENGTHS } from "./printed-formulas";

const D = inch(0.875);
const NO5: DevelopmentCase = {
  f_required: psi((0.85 * 29_100) / 0.31),
  d_a: inch(0.625),
  A_b: 0.31 * 645.16,
  f_c: psi(4000),
  c_cover: inch(1.5 - 0.3125),
  gfrp: 1,
  frp: 1,
  sand_coated: 1,
};
const anchor = (
  rule: string,
  length: WorkedLength["length"],
  given: Partial<DevelopmentCase> = {},
  options: WorkedLength["options"] = {},
): WorkedLength => ({
  id: "C5",
  kind: "constructed",
  source:
    "computed beforehand from the same equation, separately from this library; no published answer was found",
  rule,
  length,
  given: { ...NO5, ...given },
  options,
});
const inDiameters = (
  printed: number,
  d: number,
  given: Partial<DevelopmentCase> = {},
): WorkedLength => ({
  id: "simplified",
  kind: "from memory",
  source: "widely printed multiples of the diameter for Grade 60 and 4000 psi: 38, 47, 57, 71",
  rule: "aci318-19/25.4.2.3",
  given: {
    f_required: psi(60_000),
    d_a: inch(d),
    f_c: psi(4000),
    c_cover: inch(2),
    steel: 1,
    ...given,
  },
  length: [printed * inch(d), 0.5 * inch(d)],
});
const byHand = (
  rule: string,
  length: WorkedLength["length"],
  given: DevelopmentCase,
  options: WorkedLength["options"] = {},
): WorkedLength => ({
  id: "H",
  kind: "constructed",
  source: "on paper, from the printed equation",
  rule,
  given,
  length,
  options,
});

/** Development lengths with worked values. */
export const WORKED_LENGTHS: readonly WorkedLength[] = [
  ...PRINTED_LENGTHS,
  {
    id: "W4",
    kind: "published",
    source:
      "Design of Reinforced Concrete, read on what-when-how.com, p. 207: 67 diameters for f_y 60 ksi, f'c 3500 psi, (c + K_tr)/d 1.71, factor 1.5 (psi_e 1.5 stands for the factor, a No. 7 bar for its size)",
    rule: "aci318-19/25.4.2",
    given: { f_required: psi(60_000), d_a: D, f_c: psi(3500), c_cover: 1.71 * D - D / 2, steel: 1 },
    options: { coated_bar: 1 },
    length: [66.72 * D, 0.005 * D],
  },
  {
    id: "W4",
    kind: "published",
    source: "the same page, as it prints the length: 67 diameters",
    rule: "aci318-19/25.4.2",
    given: { f_required: psi(60_000), d_a: D, f_c: psi(3500), c_cover: 1.71 * D - D / 2, steel: 1 },
    options: { coated_bar: 1 },
    length: [67 * D, 0.5 * D],
  },
  anchor("aci440.1r-15/10.3", [inch(36), inch(0.005)]),
  // 36.02 in. by the guide's form in MPa, which writes 0.083 for the root of 1 psi in MPa: the same
  // equation at a stress larger by that rounding.
  anchor("aci440.1r-15/10.3", [inch(36.02), inch(0.005)], {
    f_required: (NO5.f_required * Math.sqrt(psi(1))) / 0.083,
  }),
  anchor("aashto-gfrp2-2018/2.9.7.4", [inch(35.96), inch(0.005)]),
  anchor("csa-s806-12/9.3.2", [531, 0.5]),
  anchor("csa-s6-14/16.8.4", [619, 0.5]),
  anchor("csa-s6-14/16.8.4", [495, 0.5], {}, { k_4: 0.8 }),
  // The anchor takes 1.5 in. as the clear cover.
  anchor("jsce-1997/development", [777, 0.5], { c_cover: inch(1.5) }),
  inDiameters(38, 0.75),
  inDiameters(47, 0.875),
  inDiameters(57, 0.75, { s_clear: inch(1) }),
  inDiameters(71, 0.875, { s_clear: inch(1) }),
  // 420 / (1.7 sqrt 28) = 46.69 diameters.
  byHand("aci318-19m/25.4.2.3", [46.69 * 25.4, 0.005 * 25.4], {
    f_required: 420,
    d_a: 25.4,
    f_c: 28,
    c_cover: 50,
    steel: 1,
  }),
  // Lap splices are 1.3 times as long: 20 diameters of 25 mm for a low stress; 12 in.
  byHand(
    "aci440.1r-15/10.3",
    [1.3 * 500, 1e-6],
    { f_required: 50, d_a: 25, f_c: 30, c_cover: 50, frp: 1 },
    { lap_splice: 1 },
  ),
  byHand(
    "aci440.11-22/25.4.2",
    [1.3 * 304.8, 1e-6],
    { f_required: 50, d_a: 12, f_c: 30, c_cover: 50, gfrp: 1 },
    { lap_splice: 1 },
  ),
  byHand(
    "aashto-gfrp2-2018/2.9.7.4",
    [1.3 * 500, 1e-6],
    { f_required: 50, d_a: 25, f_c: 30, c_cover: 50, gfrp: 1 },
    { lap_splice: 1 },
  ),
  // (20/4) 300 / f_bd, f_bd = 1.75 sqrt(36/25) / 1.5 = 1.4 MPa.
  byHand("fib-mc2010/6.1.3", [1500 / 1.4, 1e-6], {
    f_required: 300,
    d_a: 20,
    f_c: 36,
    c_cover: 40,
    steel: 1,
  }),
  // f = 54 (l/d)^0.55 at c_min = d, f_cm = 25, d = 25: 54 MPa over one diameter.
  byHand("fib-mc2010/6.1.3.3", [25, 1e-9], {
    f_required: 54,
    d_a: 25,
    f_c: 25,
    c_cover: 25,
    steel: 1,
  }),
];
