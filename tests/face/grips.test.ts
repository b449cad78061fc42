import { beforeAll, describe, expect, it } from "vitest";
import { openStudy, type Study } from "../../kernel-lib/src";
import { betterGrip, compare, gripMargins, gripStrengths } from "../../kernel-lib/src/comparison";
import { code } from "../../kernel-lib/src/provisions";
import { UnknownNameError } from "../../kernel-lib/src/face/results/names";

let study: Study;
beforeAll(async () => {
  study = await openStudy({ data: "datasets/demo", keep: "none" });
});

const CONFINED = { confinedBondFactor: 0.75 } as const;

describe("grips of a study", () => {
  it("have the numbers of the room of comparison", () => {
    const { groups } = gripStrengths(study.data.tests);
    const grips = study.grips();
    const table = grips.table();
    expect(groups.length).toBeGreaterThan(3);
    expect(table.column("n")).toEqual(groups.map(({ tests }) => tests.length));
    expect(table.column("broke")).toEqual(groups.map(({ broke }) => broke));
    expect(table.column("reliable")).toEqual(groups.map(({ reliable }) => reliable?.share ?? null));
    expect([...grips.findings()].slice(1)).toEqual(groups.map(({ reading }) => reading));
    expect(grips.figure().invented).toBe(true);
  });

  it("count each bar once: the rows of the data are the independent check", () => {
    const held = study.where(
      (row) => row.excluded === null && row.action === "tension" && row.grip !== null,
    );
    const broke = held.where(
      (row) => row.failure_mode === "rupture_at_grip" || row.grip_break_stress_MPa !== null,
    );
    const table = study.grips().table();
    const sum = (key: string): number =>
      table.column(key).reduce<number>((total, cell) => total + Number(cell), 0);
    expect(sum("n")).toBe(held.length);
    expect(sum("broke")).toBe(broke.length);
    expect(study.grips().answer).toContain(`${broke.length} of`);
  });

  it("give margins and outcomes as the room does", () => {
    const aci = compare(study.data.tests, code("aci318-19"), CONFINED);
    const strengths = gripStrengths(study.data.tests);
    const { margins } = gripMargins(strengths, aci, "bond");
    const shown = study.grips().marginFor("bond", "aci318-19", CONFINED);
    expect([...shown.findings()].slice(1)).toEqual(margins.map(({ reading }) => reading));
    expect(shown.table().column("embedment")).toEqual(
      margins.flatMap(({ reaches }) => reaches.map((one) => one.embedment_mm)),
    );
    expect(shown.answer).toContain("times the predicted bond load");
    const better = study.grips().betterGrip("aci318-19", CONFINED);
    expect(better.answer).toBe(betterGrip(aci).reading);
    expect(better.table().length).toBe(betterGrip(aci).tests.length);
  });

  it("without tests say why they are empty", () => {
    const none = study.where({ action: "shear" }).grips();
    expect(none.answer).toContain("No test in tension names its grip (tests in shear");
    expect(none.answer).toContain("in shear");
    expect(none.table().length).toBe(0);
    expect(none.marginFor("bond", "aci318-19").answer).toContain("No margin over bond");
    expect(none.betterGrip("aci318-19").answer).toBe("No bar broke in its grip.");
    expect(none.betterGrip("aci318-19").table().length).toBe(0);
    expect(none.figure().data.length).toBeGreaterThan(0);
    const spared = study.where({ bar_class: "steel" }).grips();
    expect(spared.answer).toMatch(/^None of [\d,]+ bars in tension broke in the grip/);
  });

  it("names the nearest mode", () => {
    expect(() => study.grips().marginFor("bnd" as "bond", "aci318-19")).toThrow(UnknownNameError);
    expect(() => study.grips().marginFor("pryout", "aci318-19")).toThrow("concrete_breakout");
  });
});
