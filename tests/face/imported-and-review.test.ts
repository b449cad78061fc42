import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  importTests,
  openReview,
  openStudy,
  sampleSummary,
  toleranceFactor,
} from "../../kernel-lib/src";
import { summarize } from "../../kernel-lib/src/statistics";
import { UnknownNameError } from "../../kernel-lib/src/face/results/names";
import { project } from "../house/project-files";
import { makeAcceptanceProject } from "./acceptance-project";

const place = join(project, ".cache");
mkdirSync(place, { recursive: true });
const folder = mkdtempSync(join(place, "face-"));
const before = process.cwd();
beforeAll(() => {
  makeAcceptanceProject(folder);
  process.chdir(folder);
});
afterAll(() => {
  process.chdir(before);
  rmSync(folder, { recursive: true, force: true });
});

const RECIPE = "datasets/recipes/frp-swssc.json";
const open = () => importTests(RECIPE, "FRP_SWSSC.csv", { keep: "none" });

describe("a foreign table imported by a recipe (cell 29)", () => {
  it("accounts for each row: imported, or rejected with the reason", async () => {
    const imported = await open();
    expect(imported.length).toBe(2);
    expect(imported.rejected().rows).toEqual([
      { row: 5, reason: expect.stringContaining('"none" cannot be used') as string },
    ]);
    expect(imported.answer).toContain("2 of 3 rows imported from 1 study, 1 rejected");
    expect(imported.assumed().column("name")).toContain("compiled-as-bond");
    expect(imported.where({ bar_material: "gfrp" }).length).toBe(1);
  });

  it("makes only the assumptions named", async () => {
    const bare = await importTests(RECIPE, "FRP_SWSSC.csv", { keep: "none", assume: [] });
    expect(bare.assumed().caption).toBe("Nothing was assumed.");
    expect(bare.column("failure_mode")).toEqual(["unknown", "unknown"]);
    const misspelt = { keep: "none", assume: ["compiled-as-bonds"] } as const;
    await expect(importTests(RECIPE, "FRP_SWSSC.csv", misspelt)).rejects.toThrow(UnknownNameError);
  });

  it("is saved as a data folder that a study reads, and replaces nothing else", async () => {
    const imported = await open();
    const path = await imported.save("datasets/imported/frp-swssc");
    expect(path).toBe(join(folder, "datasets/imported/frp-swssc"));
    const study = await openStudy({ data: "datasets/imported/frp-swssc", keep: "none" });
    expect(study.column("test_id")).toEqual(imported.column("test_id"));
    expect(study.column("peak_load_kN")).toEqual(imported.column("peak_load_kN"));
    await imported.save("datasets/imported/frp-swssc");
    await expect(imported.save("datasets")).rejects.toThrow("is not an import by the recipe");
    await expect(imported.save("datasets/demo")).rejects.toThrow(RangeError);
    expect(existsSync(join(folder, "datasets/demo/tests.csv"))).toBe(true);
  });
});

describe("own campaign, its numbers and K (cell 28)", () => {
  it("gives the ratios of the failures as numbers", async () => {
    const own = await openStudy({ data: "datasets/own/my-campaign", keep: "none" });
    expect(own.invented).toBe(false);
    const mine = own.compare("aci318-19").mode("bond").where({ lower_bound: "no" });
    const { n, mean, sd } = sampleSummary(mine.column("ratio"));
    expect(n).toBe(mine.length);
    expect(n).toBeGreaterThan(2);
    const summary = summarize(mine.column("ratio"));
    expect([mean, sd]).toEqual([summary.mean, summary.sd]);
    expect(mean - toleranceFactor(n, { confidence: 0.9 }) * sd).toBeLessThan(mean);
  });

  it("K in short form is the tabulated one", () => {
    // K for n = 5, 5 % fractile: 3.400 at 90 % and 2.463 at 75 % confidence (ISO 16269-6 and ACI
    // 355.4, from memory).
    expect(toleranceFactor(5)).toBeCloseTo(3.4, 3);
    expect(toleranceFactor(5, { confidence: 0.75 })).toBeCloseTo(2.463, 3);
    expect(toleranceFactor({ n: 5, confidence: 0.75 })).toBe(
      toleranceFactor(5, { confidence: 0.75 }),
    );
    expect(() => toleranceFactor(1)).toThrow(RangeError);
    const { cov, min, meanMinus3Sd } = sampleSummary([42, 45, 51, NaN]);
    expect(cov).toBeCloseTo(Math.sqrt(21) / 46, 12);
    expect([min, meanMinus3Sd]).toEqual([42, 46 - 3 * Math.sqrt(21)]);
    expect(sampleSummary([])).toMatchObject({ n: 0, mean: NaN, sd: NaN });
  });
});

describe("a review opened, checked and signed (cell 30)", () => {
  it("shows its cells and what no longer fits", async () => {
    const review = await openReview("exports/review", { keep: "none" });
    const cells = review.table("cells");
    expect(cells.column("result")).toEqual(["same", "within tolerance"]);
    expect(cells.column("remark")).toEqual([null, "K?"]);
    expect(review.answer).toContain("Reviewed by B. Reviewer, 2026-01-02: 2 of 2 cells");
    // The record of the fixture names another library and no inputs.
    expect(review.check().text).toMatch(/since the signing: .*library/);
    writeFileSync("notebooks/one.ipynb", "{}");
    const changed = await openReview("exports/review", { keep: "none" });
    expect(changed.check().text).toContain("one.ipynb has changed since it was signed");
  });

  it("is signed in a file of its own, which a change of the record makes void", async () => {
    const review = await openReview("exports/review", { keep: "none" });
    const file = await review.sign({ name: "A. Reviewer", opinion: "agree", remark: "By hand" });
    expect(JSON.parse(readFileSync(file, "utf8"))).toMatchObject({
      name: "A. Reviewer",
      opinion: "agree",
      remark: "By hand",
    });
    const signed = await openReview("exports/review", { keep: "none" });
    expect(signed.answer).toContain("signed off by A. Reviewer: agree");
    const path = "exports/review/review-record.json";
    writeFileSync(path, readFileSync(path, "utf8").replace("K?", "K!"));
    const later = await openReview("exports/review", { keep: "none" });
    expect(later.answer).toContain("no sign-off");
    expect(later.check().text).toContain("The record has changed since A. Reviewer signed it");
  });

  it("asks for a name, a known opinion, and a remark where it does not agree", async () => {
    const review = await openReview("exports/review", { keep: "none" });
    await expect(review.sign({ name: " ", opinion: "agree" })).rejects.toThrow("name");
    await expect(review.sign({ name: "A", opinion: "agreed" as "agree" })).rejects.toThrow(
      UnknownNameError,
    );
    await expect(review.sign({ name: "A", opinion: "disagree" })).rejects.toThrow("remark");
    await expect(openReview("exports/nothing")).rejects.toThrow("no review record");
  });
});
