import { describe, expect, it } from "vitest";
import { code } from "../../../kernel-lib/src/provisions";
import { inch, psi, squareInch, steps } from "../specimens";

const guide = code("aci440.1r-15");

describe("stress developed by an FRP bar, 10.1", () => {
  // Constructed: No. 5 GFRP (29.1 kip guaranteed, 0.31 in.2), C_E 0.85, f'c 4000 psi, C 1.5 in.;
  // computed by hand.
  const row = {
    bar_diameter_mm: inch(0.625),
    bar_area_mm2: squareInch(0.31),
    bar_strength_MPa: psi(29_100 / 0.31),
    concrete_strength_MPa: psi(4000),
    cover_mm: inch(1.5 - 0.3125),
    installation: "cast_in" as const,
  };
  const settings = { options: { C_E: 0.85 } };

  it("develops its whole strength at 36.00 in. and no more beyond", () => {
    const at = (length: number): Record<string, number> =>
      steps(guide, "aci440.1r-15/10.1", { ...row, embedment_mm: inch(length) }, settings);
    expect(at(35.99)["f_fe"]).toBeLessThan(at(35.99)["f_fu"] ?? NaN);
    expect(at(36.01)["f_fe"]).toBe(at(36.01)["f_fu"]);
    expect(at(90)["f_fe"]).toBe(at(36.01)["f_fu"]);
  });
});
