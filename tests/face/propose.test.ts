import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import type { Study } from "../../kernel-lib/src/face/study";
import { openStudy } from "../../kernel-lib/src/face/open-study";
import type { BeforeAfter } from "../../kernel-lib/src/face/proposals/before-after";
import type { Proposal } from "../../kernel-lib/src/face/proposals/proposal";
import { beforeAfterOf, conditionFormula } from "../../kernel-lib/src/proposals";
import { code } from "../../kernel-lib/src/provisions";
import { beforeAfterTable } from "../../kernel-lib/src/tables";

let study: Study;
let proposal: Proposal;
let change: BeforeAfter;
beforeAll(async () => {
  study = await openStudy({ keep: "none" });
  proposal = study.propose("aci318-19", [
    { provision: "aci318-19/17.6.5", factor: 0.8, where: { bar_class: "frp" } },
    { provision: "aci318-19/17.7.3", factor: 0.65, where: { bar_class: "frp" } },
  ]);
  change = proposal.beforeAfter("mode", "bar_material");
}, 120_000);

const folder = mkdtempSync(join(tmpdir(), "proposal-"));

describe("a change of one's own", () => {
  it("has the numbers of the room before and after", () => {
    const room = beforeAfterOf(
      study.data.tests,
      code("aci318-19"),
      proposal.proposed,
      ["mode", "bar_material"],
      { level: "nominal" },
    );
    expect(change.table().rows).toEqual(beforeAfterTable(room, { id: "t", title: "t" }).rows);
    const rows = new Map(
      change.table().rows.map((row) => [`${row["mode"]} ${row["bar_material"]}`, row]),
    );
    // The capacity times 0.8: every ratio over 0.8, so the mean too; steel stays as it is.
    const bond = rows.get("bond GFRP")!;
    expect(Number(bond["mean_after"])).toBeCloseTo(Number(bond["mean_before"]) / 0.8, 6);
    const steel = rows.get("bond steel")!;
    expect(steel["after"]).toBe(steel["before"]);
  }, 60_000);

  it("answers and draws", () => {
    expect(change.answer).toMatch(
      /^ACI 318-19 Chapter 17, nominal level: \d+ of \d+ groups.*change/,
    );
    expect(change.figure("before and after").data.length).toBeGreaterThan(0);
    expect(change.table("safety and economy").rows.length).toBe(change.table().rows.length);
    expect(proposal.answer).toContain("aci318-19/17.6.5: 0.8 where the bar is FRP");
    expect(proposal.table("changes").rows.length).toBe(2);
    expect([...proposal.findings()]).toHaveLength(2);
  }, 60_000);

  it("leaves every ratio as it is with a factor of 1, to the last bit", () => {
    const one = study.propose("aci318-19", {
      provision: "aci318-19/17.6.5",
      factor: 1,
      where: { bar_class: "frp" },
    });
    const same = one.beforeAfter("mode", "bar_material");
    expect(same.answer).toContain("0 of");
    expect(same.findings().text).toMatch(/[\d,]{4,} ratios compared, none differs\./);
    expect(change.findings().text).toMatch(/ratios compared, [1-9][\d,]* differ\./);
  }, 60_000);

  it("takes scatter of fabrication and measuring for the index, and says so", () => {
    const cell = (table: ReturnType<typeof change.table>): number =>
      Number(
        table.rows.find((row) => row["mode"] === "bond" && row["bar_material"] === "GFRP")![
          "index_before"
        ],
      );
    const plain = change.table("safety and economy");
    const wider = change.withReliability({ fabricationCov: 0.1 }).table("safety and economy");
    expect(cell(wider)).toBeLessThan(cell(plain));
    expect(wider.toMarkdown()).toContain("fabrication scatter (10 %)");
    expect(() => change.withReliability({ fabricationCov: 10 })).toThrow(/fabricationCov is 10/);
  });

  it("counts the analyses that its factors do not exceed", () => {
    const rows = proposal.choices().table().rows;
    expect(rows.map((row) => row["proposed"])).toContain(0.8);
    expect(rows.every((row) => Number(row["adequate"]) <= Number(row["analyses"]))).toBe(true);
  }, 60_000);

  it("leaves out each study", () => {
    const left = proposal.leaveOut("study_id");
    expect(left.answer).toMatch(/without any one study/);
    expect(left.table().rows.length).toBeGreaterThan(0);
    for (const row of left.table().rows) expect([0.8, 0.65]).toContain(row["proposed"]);
    expect(() => proposal.leaveOut("lab" as never)).toThrow(/laboratory/);
  }, 60_000);

  it("goes wherever a code goes", () => {
    const [plain, changed] = ["aci318-19" as const, proposal].map((one) =>
      study.compare(one).mode("bond").where({ bar_material: "gfrp" }).column("ratio"),
    );
    expect(changed!.length).toBe(plain!.length);
    changed!.forEach((ratio, i) => expect(ratio).toBeCloseTo(plain![i]! / 0.8, 10));
  });

  it("states the tested range and whether the tests support it", () => {
    const [bond, pryout] = proposal.changes;
    expect(bond!.limits.some((limit) => limit.startsWith("bar_diameter_mm"))).toBe(true);
    expect(bond!.reason).not.toBe("");
    expect(pryout!.where).toBe("frp == 1");
    const required = proposal
      .table("evidence")
      .rows.find((row) => row["mode"] === "bond" && row["material"] === "GFRP")!;
    // By the fractile criterion the factor is the characteristic ratio of the present provision.
    const before = change
      .table()
      .rows.find((row) => row["mode"] === "bond" && row["bar_material"] === "GFRP")!;
    expect(required["required"]).toBe(before["before"]);
    expect(required["applied"]).toBe(0.8);
  });

  it("drafts text with the researcher's words, numbers by placeholder only", async () => {
    const own = proposal.withText("aci318-19/17.6.5", {
      outside: "Only {n} short-term tests were made.",
    });
    expect(own.draft("aci318-19/17.6.5").text).toMatch(/Only \d+ short-term tests were made\./);
    expect(proposal.draft().text).not.toContain("short-term tests were made.");
    expect([...own.draft()]).toHaveLength(2);
    expect(own.draft().placeholders).toContain("factor");
    expect(() => proposal.withText("aci318-19/17.6.5", { outside: "Only 12 tests." })).toThrow(
      /typed number/,
    );
    expect(() => proposal.draft("aci318-19/17.6.4")).toThrow(/changed provision/);
    const file = await proposal.draft().save(join(folder, "draft.md"));
    expect(readFileSync(file, "utf8")).toContain("17.6.5");
  }, 60_000);

  it("is saved as JSON and opened again", async () => {
    const file = await proposal.save(join(folder, "proposal.json"));
    const again = await study.openProposal(file);
    expect(proposal.proposed.map(({ title }) => title)).toEqual([
      "FRP bars in bond",
      "FRP bars in pryout",
    ]);
    expect(again.proposed).toEqual(proposal.proposed);
    expect(again.changedCode.provisions).toEqual(proposal.changedCode.provisions);
    await expect(study.openProposal(join(folder, "none.json"))).rejects.toThrow(/cannot be opened/);
  }, 60_000);

  it("withdraws a provision, and takes formulas", () => {
    const none = study.propose("aci318-19", {
      provision: "aci318-19/17.6.5",
      factor: "not permitted",
      where: { bar_material: "gfrp" },
    });
    const bars = (code: typeof none | "aci318-19"): number =>
      study.compare(code).mode("bond").where({ bar_material: "gfrp" }).length;
    expect(bars("aci318-19")).toBeGreaterThan(0);
    expect(bars(none)).toBe(0);
    expect(none.answer).toContain("not permitted where the bar is glass FRP");
    const formula = study.propose("aci318-19", {
      provision: "aci318-19/17.6.5",
      factor: "min(1, 0.5 / d_a)",
      where: { bar_class: "frp", bar_diameter_mm: { from: 12.7 } },
    });
    expect(formula.changes[0]!.where).toBe("frp == 1 && d_a >= 0.5");
  }, 60_000);

  it("refuses what it cannot use, with the nearest name", () => {
    const propose = (one: object): unknown =>
      study.propose("aci318-19", { provision: "aci318-19/17.6.5", factor: 0.8, ...one });
    expect(() => study.propose("aci318" as never, [])).toThrow(/aci318-19/);
    expect(() => propose({ provision: "aci318-19/17.6.6" })).toThrow(/17\.6\.5/);
    expect(() => propose({ factor: 0 })).toThrow(/above 0/);
    expect(() => propose({ factor: "0.8 * nothing" })).toThrow(/nothing/);
    expect(() => propose({ where: { bar_clas: "frp" } })).toThrow(/bar_class/);
    expect(() => propose({ where: { bar_class: "wood" } })).toThrow(/steel, frp/);
    expect(() => propose({ where: () => true })).toThrow(/no code can print/);
    const empty = study.propose("aci318-19", []);
    expect(empty.answer).toContain("No change");
    expect(empty.draft().text).toContain("No change");
    expect(empty.table().rows).toEqual([]);
  });
});

describe("a condition in the formula language", () => {
  const metric = code("en1992-4-2018");
  it.each([
    [{ bar_class: "frp" }, "frp == 1"],
    [
      { bar_material: ["gfrp", "bfrp"], cracked: "yes" },
      "(gfrp == 1 || bfrp == 1) && cracked == 1",
    ],
    [{ bar_material: { not: "steel" } }, "steel == 0"],
    [{ installation: "cast_in" }, "post_installed == 0"],
    [{ bar_diameter_mm: { from: 10, to: 16 } }, "d_a >= 10 && d_a <= 16"],
    [{ bar_modulus_GPa: { to: 60 } }, "E_b <= 60000"],
    [{ group_nx: 2 }, "n_x == 2"],
    [{}, "steel == 1 || frp == 1"],
  ])("%j", (wanted, formula) => {
    expect(conditionFormula(wanted, metric)).toBe(formula);
  });
  it("converts to the units of the code", () => {
    expect(conditionFormula({ embedment_mm: 254 }, code("aci318-19"))).toBe("h_ef == 10");
    // 1 psi = 6894.757 Pa (NIST SP 811, from memory).
    const psi = conditionFormula({ concrete_strength_MPa: { from: 6.894757 } }, code("aci318-19"));
    expect(Number(/>= (.*)$/.exec(psi)![1])).toBeCloseTo(1000, 3);
  });
});

describe("the ballot", () => {
  it("has a sheet for each changed provision, says whether it is supported, and checks its text", async () => {
    const ballot = proposal.ballot();
    expect(ballot.sheets.map(({ provision }) => provision.id)).toEqual([
      "aci318-19/17.6.5",
      "aci318-19/17.7.3",
    ]);
    expect(ballot.supported).toBe(false);
    expect(ballot.check().text).toMatch(
      /17\.6\.5: what the text says \(0\.8\) is what was evaluated/,
    );
    const [bond] = ballot.sheets;
    const gfrp = bond!.classes.find(({ label }) => label === "bond, GFRP")!;
    const group = change.change.groups.find(({ label }) => label === "bond, GFRP")!;
    expect([gfrp.lower, gfrp.lowerAfter]).toEqual([group.before.lower, group.after.lower]);
    const file = await proposal.ballot("aci318-19/17.6.5").save(join(folder, "ballot.html"));
    expect(readFileSync(file, "utf8")).toMatch(/Ballot sheet 1 of 1[\s\S]*Not supported/);
    expect(() => proposal.ballot("aci318-19/17.6.4")).toThrow(/changed provision/);
  });
  it("stands by the researcher's statement, numbers by placeholder only", () => {
    const stated = proposal.withText("aci318-19/17.6.5", {
      stands: "{factor} is what the product approvals use.",
    });
    const [bond] = stated.ballot("aci318-19/17.6.5").sheets;
    expect([bond!.status, bond!.statement]).toEqual([
      "stands by statement",
      "0.8 is what the product approvals use.",
    ]);
    expect(() => proposal.withText("aci318-19/17.6.5", { stands: "It is 0.8." })).toThrow(
      /typed number/,
    );
  });
});
