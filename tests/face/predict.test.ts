import { beforeAll, describe, expect, it } from "vitest";
import { compare } from "../../kernel-lib/src/comparison";
import { openStudy } from "../../kernel-lib/src/face/open-study";
import { UnknownNameError } from "../../kernel-lib/src/face/results/names";
import type { Study } from "../../kernel-lib/src/face/study";
import { code, governing, predict, trace } from "../../kernel-lib/src/provisions";

let study: Study;
beforeAll(async () => {
  study = await openStudy({ keep: "none", data: "datasets/demo" });
});

describe("predict", () => {
  it("gives mode, capacity, load and ratio of each test in shear, as the provisions do", () => {
    const found = study.where({ action: "shear", bar_class: "frp" }).predict("aci318-19");
    const { table } = study.where({ action: "shear", bar_class: "frp" }).chosen;
    const least = governing(predict(code("aci318-19"), table));
    expect(found.length).toBe(table.length);
    expect([...found.column("capacity_kN")]).toEqual([...least.capacity].map((n) => n / 1000));
    const shown = found.table();
    expect(shown.columns.map(({ key }) => key)).toEqual([
      "test_id",
      "failure_mode",
      "governing_mode",
      "clause",
      "capacity_kN",
      "load_kN",
      "ratio",
    ]);
    expect(shown.rows).toHaveLength(table.length);
    expect(found.answer).toMatch(/^ACI 318-19.*nominal level \(tests in shear, FRP bars\): 300 of/);
    expect(shown.column("ratio")[0]).toBe(
      table.number(0, "peak_load_kN") / ((least.capacity[0] ?? NaN) / 1000),
    );
  });

  it("gives the ratio to the governing capacity that the comparison gives", () => {
    const rows = [...study.predict("aci318-19")];
    const pairs = compare(study.chosen.table, code("aci318-19"), { capacityOf: "governing mode" });
    expect(pairs.evidence.length).toBeGreaterThan(900);
    for (const { row, ratio, capacity } of pairs.evidence) {
      expect(rows[row]!.ratio).toBe(ratio);
      expect(rows[row]!.capacity_kN).toBe(capacity);
    }
  });

  it("gives several codes below one another, with the code as a column", () => {
    const few = study.where({ series_id: "IH-075" });
    const found = few.predict(["aci318-19", "en1992-4-2018"]);
    expect(found.length).toBe(2 * few.length);
    expect(found.table("governing").rowKey).toEqual(["test_id", "code"]);
    expect(new Set(found.table("all capacities").column("code"))).toEqual(
      new Set(["aci318-19", "en1992-4-2018"]),
    );
  });

  it("accounts for every row that a provision can reach", () => {
    const uses = study.predict("aci318-19").table("provisions");
    const breakout = uses.rows.find(({ clause }) => clause === "17.6.2")!;
    const column = predict(code("aci318-19"), study.chosen.table).columns.find(
      ({ provision }) => provision.id === "aci318-19/17.6.2",
    )!;
    const setups = study.chosen.table.texts("setup");
    const free = setups.flatMap((setup, i) => (setup === "unconfined_tension" ? [i] : []));
    expect(breakout["reached"]).toBe(free.length);
    expect(breakout["capacities"]).toBe(
      free.filter((i) => !Number.isNaN(column.capacity[i])).length,
    );
    const governed = uses.column("governs").reduce((sum: number, n) => sum + Number(n), 0);
    expect(governed).toBe([...study.predict("aci318-19")].filter((row) => row.provision).length);
  });

  it("says why there is nothing, and names the nearest match of a wrong name", () => {
    const none = study.where({ test_id: "nobody" });
    expect(none.predict("aci318-19").answer).toMatch(/No row meets the conditions/);
    expect(none.predict("aci318-19").table().rows).toEqual([]);
    expect(() => study.predict("aci318-91" as "aci318-19")).toThrow(UnknownNameError);
    const misspelt = { ductil: 1 } as Record<string, number>;
    expect(() => study.predict("aci318-19", { options: misspelt })).toThrow(/ductile/);
    expect(() => study.predict("aci318-19").table("goverming" as "governing")).toThrow(/governing/);
    expect(() => study.predict([])).toThrow(/No code is named/);
  });

  it("reports the level and the options in the numbers", () => {
    const shear = study.where({ test_id: "IH-075-1" });
    const design = shear.predict("aci318-19", { level: "design", options: { ductile: 1 } });
    const [row] = [...design];
    const { table } = shear.chosen;
    const least = governing(
      predict(code("aci318-19"), table, { level: "design", options: { ductile: 1 } }),
    );
    expect(row!.capacity_kN).toBe((least.capacity[0] ?? NaN) / 1000);
    expect(design.name).toBe("predictions-aci318-19-design-test-ih-075-1");
  });
});

describe("explain", () => {
  it("prints the governing hand calculation and gives its steps as a table", async () => {
    const found = study.explain("IH-075-1", "aci318-19");
    expect(found.answer).toMatch(
      /IH-075-1 by ACI 318-19.*: bond \(17\.6\.5\) 65\.6 kN, the governing capacity; peak load 79\.7 kN \(ratio 1\.22\), observed bond\./,
    );
    const [tests, i] = [study.chosen.table, [...study.column("test_id")].indexOf("IH-075-1")];
    const provision = code("aci318-19").provisions.find(({ id }) => id === "aci318-19/17.6.5")!;
    expect(found.trace!.capacity_N).toBe(trace(code("aci318-19"), provision, tests, i).capacity_N);
    expect(found.toText()).toContain("N_ba");
    const steps = found.table("steps");
    expect(steps.column("symbol")).toContain("N_ag");
    expect(steps.notes.join(" ")).toMatch(/14738\.7 lb \(65\.5611 kN\).*Research use only/);
    const display = Symbol.for("code-comparison.display");
    const shown = await (found as unknown as Record<symbol, () => Promise<object>>)[display]!();
    expect(Object.keys(shown)).toEqual(["text/html", "text/markdown", "text/plain"]);
  });

  // Paper: tau 10.5 MPa, d 15.9 mm, h_ef 125 mm, remote from edges: N = pi d h tau (17.6.5.2.1),
  // 3.14159 x 15.9 x 125 x 10.5 = 65 561 N.
  it("explains a mode, whether or not it governs", () => {
    const bond = study.explain("IH-075-1", "aci318-19", { mode: "bond" });
    expect(bond.trace!.capacity_N).toBeCloseTo(Math.PI * 15.9 * 125 * 10.5, 6);
    const cone = study.explain("IH-075-1", "aci318-19", { mode: "concrete_breakout" });
    expect(cone.answer).toMatch(/concrete breakout \(17\.6\.2\)/);
    expect(cone.answer).not.toMatch(/governing capacity/);
    expect(cone.findings().text).toMatch(/Governing for this test.*17\.6\.5/);
    expect(study.explain("IH-075-1", "aci318-19", { mode: "pryout" }).answer).toMatch(
      /a mode that this set-up does not permit/,
    );
  });

  it("says why a mode has no capacity", () => {
    const splitting = study.explain("IH-075-1", "aci318-19", { mode: "splitting" });
    expect(splitting.answer).toMatch(/no capacity in splitting \(25\.4\.2\)/);
    expect(splitting.toText()).toMatch(/No capacity is stated: .*deformed steel bars/);
  });

  it("names the nearest match of a wrong test or mode", () => {
    expect(() => study.explain("IH-075-11", "aci318-19")).toThrow(/did you mean IH-075-1/);
    expect(() => study.explain("IH-075-1", "aci318-19", { mode: "bonds" as "bond" })).toThrow(
      /did you mean bond/,
    );
  });
});
