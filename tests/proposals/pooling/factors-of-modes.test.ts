import { describe, expect, it } from "vitest";
import { compare, groupRatios } from "../../../kernel-lib/src/comparison";
import {
  factorsOfModes,
  FRP_MODES_ACI318,
  oneFactorPerClass,
  oneFactorPerMode,
} from "../../../kernel-lib/src/proposals";
import { code } from "../../../kernel-lib/src/provisions";
import { table } from "../../provisions/specimens";
import { expectSaid } from "../../says";

const bars = (material: "gfrp" | "bfrp", loads: readonly number[]) =>
  loads.map((load, k) => ({
    series_id: `${material}${k % 3}`,
    bar_material: material,
    failure_mode: "bond" as const,
    peak_load_kN: load,
  }));
function factorsFor(basalt: readonly number[], pooling: "never" | "no difference found" = "never") {
  const all = table(...bars("gfrp", [26, 28, 30, 31, 33, 29, 28]), ...bars("bfrp", basalt));
  const comparison = compare(all, code("aci318-19"), { level: "nominal" });
  const bond = {
    ...comparison,
    evidence: comparison.evidence.filter(({ mode }) => mode === "bond"),
  };
  return factorsOfModes(bond, groupRatios(bond, ["mode", "bar_material"]), { pooling });
}

describe("factorsOfModes", () => {
  const similar = [27, 28, 30, 32, 31, 29];
  it("pools classes without a significant difference only when asked; else the class that needs the lowest factor decides", () => {
    const [never] = factorsFor(similar);
    expect(never?.pooled?.n).toBe(13);
    expect(never?.chosen).toBe(never?.worst);
    expectSaid(never?.reading, /no significant difference/i, /pooled/i, "13 tests");
    const [pooled] = factorsFor(similar, "no difference found");
    expect(pooled?.chosen).toBe(pooled?.pooled);
    expect(pooled?.chosen?.exact).toBeGreaterThan(pooled?.worst?.exact ?? NaN);
  });
  it("uses one criterion for all classes of a mode: fractile where no steel stands beside", () => {
    const [found] = factorsFor(similar);
    expect(found?.criterion).toBe("fractile");
    for (const one of found?.perClass ?? [])
      expect(one).toMatchObject({ criterion: "fractile", steel: { factor: null } });
  });
  it("never pools classes that differ", () => {
    const lower = similar.map((load) => 0.6 * load);
    const [differ] = factorsFor(lower, "no difference found");
    expect(differ?.pooled).toBeNull();
    expect(differ?.chosen?.label).toContain("BFRP");
    expect(oneFactorPerMode(factorsFor(lower), FRP_MODES_ACI318)[0]?.factor).toBe(
      String(differ?.worst?.rounded),
    );
    expect(
      oneFactorPerClass(factorsFor(lower), FRP_MODES_ACI318).map(({ where, factor }) => [
        where,
        factor,
      ]),
    ).toEqual(
      differ?.perClass.map(({ rounded, label }) => [
        label.includes("BFRP") ? "bfrp == 1" : "gfrp == 1",
        String(rounded),
      ]),
    );
  });
  it("proposes nothing where a class has too few tests, and says which", () => {
    const few = factorsFor([20, 22]);
    expect(few[0]).toMatchObject({ chosen: null, pooled: null });
    expectSaid(few[0]?.reading, "no factor", /bond, BFRP\b.*too few tests/);
    expect(few[0]?.perClass.find(({ label }) => label.includes("BFRP"))).toMatchObject({
      status: "not derived",
      rounded: null,
    });
    expect(oneFactorPerMode(few, FRP_MODES_ACI318)).toEqual([]);
  });
});
