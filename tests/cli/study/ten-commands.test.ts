import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { commandLine } from "../../../kernel-lib/src/cli/command-line";
import { demoCsv } from "../../face/demo-rows";
import { writeDemoRows } from "../../face/small-studies";
import { project } from "../../house/project-files";

const [, section = ""] = readFileSync(join(project, "README.md"), "utf8").split(
  "## Your own campaign alone",
);
const [, block = ""] = /```\n([\s\S]*?)```/.exec(section) ?? [];
const lines = block.trim().split("\n");

const before = process.cwd();
const place = mkdtempSync(join(tmpdir(), "ten-"));

/** Runs one line as written; its exit code. */
async function run(line: string): Promise<number> {
  const words = line.replace(/^npx code-comparison /, "").split(" ");
  const printed = vi.spyOn(console, "log").mockImplementation(() => undefined);
  const errors = vi.spyOn(console, "error").mockImplementation(() => undefined);
  process.exitCode = 0;
  try {
    await commandLine().parseAsync(words, { from: "user" });
    return Number(process.exitCode);
  } finally {
    process.exitCode = 0;
    printed.mockRestore();
    errors.mockRestore();
  }
}

describe("the ten commands of the README", () => {
  beforeAll(() => {
    mkdirSync(join(place, "here"));
    process.chdir(join(place, "here"));
  });
  afterAll(() => {
    process.chdir(before);
    rmSync(place, { recursive: true, force: true });
  });

  it("are ten, from a new folder to the study", () => {
    expect(lines).toHaveLength(10);
    expect(lines[0]).toContain(" new ../my-study");
    expect(lines[9]).toBe("npx code-comparison study ../my-study");
  });
  it("run as written on a small campaign", async () => {
    expect(await run(lines[0]!)).toBe(0);
    const rows = demoCsv()
      .filter(
        ({ setup, bar_material }) => setup === "unconfined_tension" && bar_material !== "bfrp",
      )
      .filter((_, i) => i % 6 === 0)
      .map((row) => ({ ...row, study_id: "my-study", curve: "" }));
    writeDemoRows("../my-study/data", Object.keys(rows[0]!), rows);
    for (const line of lines.slice(1, 8)) expect([line, await run(line)]).toEqual([line, 0]);
    // 1: further tests are needed.
    expect([0, 1]).toContain(await run(lines[8]!));
    for (const file of ["bond.json", "report.docx"])
      expect(existsSync(join(place, "my-study", file)), file).toBe(true);
    // The last is run with kernels by the test of the packed library; here its settings are read.
    writeFileSync("../my-study/study.json", '{"codes": "x"}');
    expect(await run(lines[9]!)).toBe(2);
  });
});
