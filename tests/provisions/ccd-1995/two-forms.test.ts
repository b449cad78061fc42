import { describe, expect, it } from "vitest";
import { code } from "../../../kernel-lib/src/provisions";
import { capacity, inch, psi, pounds } from "../specimens";

const [cylinder, cube] = [code("ccd-1995"), code("ccd-1995-cube")];
const settings = { level: "expected" as const, options: { headed_cast_in: 1 } };

// The psi form (35, 40, 13, cylinder strength) and the SI form (13.5, 15.5, 1.0, 200 mm cube
// strength) of the 1995 paper
// (coefficients from memory) are the same law: converting gives 13.50, 15.43 and 0.995.
describe("mean concrete capacity, both printed forms", () => {
  it.each([
    ["tension", { installation: "post_installed" }, 13.5 / 13.5],
    ["tension", { installation: "cast_in" }, 15.5 / 15.43],
    ["shear", { edge_1_mm: inch(5) }, 1 / 0.995],
  ] as const)("%s %j agree to the printed digits", (mode, row, ratio) => {
    const found =
      capacity(cube, `ccd-1995/${mode}`, { ...row, cracked: "no" }, settings) /
      capacity(cylinder, `ccd-1995/${mode}`, { ...row, cracked: "no" }, settings);
    expect(Math.abs(found - ratio)).toBeLessThan(5e-4);
  });

  it("a far bar at 4 in. in 3600 psi concrete: 35 x 60 x 8 lb, and 0.7 of it in a crack (constructed)", () => {
    const row = { embedment_mm: inch(4), concrete_strength_MPa: psi(3600) };
    expect(
      pounds(capacity(cylinder, "ccd-1995/tension", { ...row, cracked: "no" }, settings)),
    ).toBeCloseTo(16_800, 8);
    expect(
      pounds(capacity(cylinder, "ccd-1995/tension", { ...row, cracked: "yes" }, settings)),
    ).toBeCloseTo(11_760, 8);
  });
});
