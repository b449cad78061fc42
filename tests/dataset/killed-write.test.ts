import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdtemp, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { describe, expect, it } from "vitest";
import { readDataset, writeDataset } from "../../kernel-lib/src/dataset";
import { createRandom } from "../../kernel-lib/src/statistics/random";

const built = new URL("../../kernel-lib/dist/dataset/index.js", import.meta.url).pathname;

/**
 * Writes the data set over and over, all loads 1 kN or all 2 kN, until it is killed. It says when
 * the first write is done.
 */
const WRITER = `
const { describePackage, TestTable, writeDataset } = require(process.argv[1]);
const rows = (load) => Array.from({ length: 300 }, (_, i) => ({ test_id: "t" + i, study_id: "s", series_id: "a", bar_material: "gfrp", bar_diameter_mm: 16, installation: "cast_in", concrete_strength_MPa: 30, concrete_strength_basis: "cylinder", embedment_mm: 80, setup: "pullout_block", action: "tension", peak_load_kN: load, failure_mode: "bond" }));
const tables = [1, 2].map((load) => TestTable.fromRows(rows(load)));
(async () => {
  for (let k = 0; ; k += 1) {
    await writeDataset(process.argv[2], { tests: tables[k % 2], studies: [{ study_id: "s", provenance: "own", citation: null, doi: null, year: null, licence: null, transcription: null, remarks: null }], card: "# card", descriptor: describePackage({ name: "x", title: "x", description: "x" }) });
    if (k === 1) console.log("written");
  }
})();`;

describe("a process killed while it writes a data set", () => {
  it.skipIf(!existsSync(built))(
    `leaves a whole one, ten times at random moments (library ${existsSync(built) ? "built" : "not built, skipped"})`,
    async () => {
      const parent = await mkdtemp(join(tmpdir(), "killed-"));
      const random = createRandom("killed writers");
      try {
        for (let k = 0; k < 10; k += 1) {
          const folder = join(parent, "set");
          const writer = spawn(process.execPath, ["-e", WRITER, built, folder], {
            stdio: ["ignore", "pipe", "inherit"],
          });
          await new Promise((resolve) => writer.stdout.once("data", resolve));
          await wait(random.integer(60));
          writer.kill("SIGKILL");
          await new Promise((resolve) => writer.once("exit", resolve));
          const { tests, diagnostics } = await readDataset(folder);
          expect(diagnostics.filter(({ severity }) => severity === "error")).toEqual([]);
          expect(tests.length).toBe(300);
          expect(new Set(tests.numbers("peak_load_kN")).size).toBe(1);
        }
        await writeDataset(join(parent, "set"), {
          ...(await readDataset(join(parent, "set"))),
          card: "# card",
          descriptor: (await readDataset(join(parent, "set"))).descriptor!,
        });
        expect(await readdir(parent)).toEqual(["set"]);
      } finally {
        await rm(parent, { recursive: true });
      }
    },
    60_000,
  );
});
