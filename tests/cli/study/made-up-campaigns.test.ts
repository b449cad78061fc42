import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openStudy, type Study } from "../../../kernel-lib/src/index";
import { madeUpCampaign, type TrueTest } from "./made-up-campaign";

const place = mkdtempSync(join(tmpdir(), "made-up-"));
const campaigns = Array.from({ length: 50 }, (_, k) => madeUpCampaign(k + 1));
const studies: Study[] = [];
beforeAll(async () => {
  writeFileSync(join(place, "study.json"), '{ "data": ["data"] }');
  for (const [k, { csv }] of campaigns.entries()) {
    const folder = mkdtempSync(join(place, "data-"));
    writeFileSync(join(folder, "tests.csv"), csv);
    studies[k] = await openStudy({ folder: place, data: folder, keep: "none" });
  }
});
afterAll(() => rmSync(place, { recursive: true, force: true }));

/** The rows for the sums by hand: groups without a lower bound and of at least 5 tests. */
const judged = (truth: readonly TrueTest[]): TrueTest[] => {
  const of = (material: string): TrueTest[] => truth.filter((t) => t.material === material);
  return truth.filter(({ material }) => {
    const group = of(material);
    return group.length >= 5 && group.every(({ mode }) => mode === "bond");
  });
};

const MODULES = ["-c", "import scipy"];
const scipy = spawnSync("python3", MODULES).status === 0;
if (!scipy) console.log("skipped: verdicts recomputed in Python, because SciPy is not installed");

interface Answer {
  readonly n: number;
  readonly mean: number;
  readonly lower: number;
  readonly upper: number;
  readonly verdict: string;
}

describe("fifty invented campaigns in other units, orders and separators", () => {
  it("are read value by value as they were", () => {
    const columns = {
      bar_diameter_mm: "diameter_mm",
      embedment_mm: "embedment_mm",
      concrete_strength_MPa: "strength_MPa",
      bond_strength_char_MPa: "bond_MPa",
      peak_load_kN: "load_kN",
    } as const;
    for (const [k, { truth }] of campaigns.entries()) {
      const study = studies[k]!;
      expect([k, study.data.rejected, study.length]).toEqual([k, [], truth.length]);
      for (const [name, key] of Object.entries(columns)) {
        const read = study.column(name as keyof typeof columns);
        truth.forEach((one, i) =>
          expect(Math.abs(Number(read[i]) / one[key] - 1), `${k} ${name}`).toBeLessThan(1e-12),
        );
      }
      expect([...study.column("failure_mode")]).toEqual(truth.map(({ mode }) => mode));
      expect([...study.column("bar_material")]).toEqual(truth.map(({ material }) => material));
    }
  });
  it.skipIf(!scipy)(
    "get the verdicts that a separate computation gives",
    () => {
      const some = process.env["ALL_STUDIES"] === undefined ? campaigns.slice(0, 8) : campaigns;
      const input = JSON.stringify(some.map(({ truth }) => judged(truth)));
      const script = join(import.meta.dirname, "verdicts.py");
      const { stdout, stderr } = spawnSync("python3", [script], { input, encoding: "utf8" });
      expect(stderr).toBe("");
      const answers = JSON.parse(stdout) as Record<string, Answer>[];
      const seen = new Set<string>();
      for (const [k, answer] of answers.entries()) {
        const groups = studies[k]!.compare("aci318-19").mode("bond").by("bar_material");
        for (const [bar_material, wanted] of Object.entries(answer)) {
          const group = groups.group({ bar_material: bar_material as "gfrp" });
          const { verdict, lower, upper } = group.asTested;
          expect([k, bar_material, group.n, verdict]).toEqual([
            k,
            bar_material,
            wanted.n,
            wanted.verdict,
          ]);
          expect(group.mean).toBeCloseTo(wanted.mean, 9);
          expect(lower).toBeCloseTo(wanted.lower, 6);
          expect(upper).toBeCloseTo(wanted.upper, 6);
          seen.add(verdict);
        }
      }
      // All three verdicts occur: the check is not of one kind only.
      expect([...seen].sort()).toEqual(["falls short", "meets", "undecided"]);
    },
    600_000,
  );
});
