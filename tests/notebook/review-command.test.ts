import { spawn } from "node:child_process";
import {
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  readlinkSync,
  writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { fixtureCopy, notebookOf, scratchFolder } from "./notebook-in-scratch";

const PROGRAM = join(__dirname, "..", "..", "kernel-lib", "bin", "code-comparison.js");
const built = existsSync(join(__dirname, "..", "..", "kernel-lib", "dist", "cli", "main.js"));
if (!built) console.log("skipped: the review command, as kernel-lib is not built");

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/**
 * Runs `code-comparison review`; `onOutput` sees what it has printed so far and may act on the
 * process.
 */
function review(
  words: readonly string[],
  onOutput: (out: string, stop: () => void) => void = () => undefined,
): Promise<Ended> {
  const child = spawn(process.execPath, [PROGRAM, "review", ...words], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let [out, err] = ["", ""];
  child.stdout
    .setEncoding("utf8")
    .on("data", (text: string) => onOutput((out += text), () => child.kill("SIGINT")));
  child.stderr.setEncoding("utf8").on("data", (text: string) => (err += text));
  return new Promise((done) => child.once("close", (code) => done({ code, out, err })));
}

/** Processes that work below the folder; only Linux tells. */
function processesIn(folder: string): string[] {
  if (process.platform !== "linux") return [];
  return readdirSync("/proc").filter((pid) => {
    try {
      return /^\d+$/.test(pid) && readlinkSync(join("/proc", pid, "cwd")).startsWith(folder);
    } catch {
      return false;
    }
  });
}

describe.skipIf(!built)("code-comparison review", () => {
  test("signs a record, which --check confirms until the notebook changes", async () => {
    const [file, out] = [fixtureCopy("same"), scratchFolder()];
    const signed = await review([file, "--sign", "A. Reviewer", "--out", out]);
    expect([signed.code, signed.err]).toEqual([0, ""]);
    const record = join(out, "review-record.json");
    expect(signed.out).toContain(`Signed by A. Reviewer: ${record}`);
    const held = await review([file, "--check", record]);
    expect(held.code).toBe(0);
    expect(held.out).toMatch(/record matches: .*as signed/);
    expect(
      JSON.parse((await review([file, "--check", record, "--format", "json"])).out),
    ).toMatchObject({ reviewer: "A. Reviewer", reproduced: true, holds: true, problems: [] });
    writeFileSync(file, `${readFileSync(file, "utf8")}\n`);
    const broken = await review([file, "--check", record]);
    expect(broken.code).toBe(1);
    expect(broken.out).toContain(`${file} has changed since it was signed`);
    writeFileSync(record, "{}");
    expect(await review([file, "--check", record])).toMatchObject({
      code: 2,
      err: expect.stringContaining("is no review record") as string,
    });
    writeFileSync(record, "no JSON");
    expect(await review([file, "--check", record])).toMatchObject({
      code: 2,
      err: expect.stringContaining("is no review record") as string,
    });
    expect(await review([file, "--check", join(out, "nowhere.json")])).toMatchObject({
      code: 2,
      err: expect.stringContaining("there is no review record") as string,
    });
  }, 120_000);

  test("--page: Ctrl-C while a cell runs ends kernel, server and scratch copy, and writes the report", async () => {
    const [file, out] = [
      notebookOf([
        'import { writeFileSync } from "node:fs";\nwriteFileSync("begun", "");\nawait new Promise((done) => setTimeout(done, 600_000));',
        "2",
      ]),
      scratchFolder(),
    ];
    mkdirSync(join(dirname(file), ".cache"));
    writeFileSync(join(dirname(file), "package-lock.json"), "{}\n");
    let address = "";
    const ended = await review([file, "--page", "--out", out], (printed, stop) => {
      if (address !== "" || !/http:\S+\n/.test(printed)) return;
      address = /http:\S+/.exec(printed)?.[0] ?? "";
      void (async () => {
        await fetch(`${address}run`, {
          method: "POST",
          headers: { "content-type": "application/json" },
          body: '{"notebook":1,"to":2}',
        });
        while (
          !readdirSync(join(dirname(file), ".cache"), { recursive: true }).some((name) =>
            String(name).endsWith("begun"),
          )
        )
          await new Promise((done) => setTimeout(done, 100));
        stop();
      })();
    });
    expect(ended.err).toBe("");
    expect(ended.code).toBe(1);
    expect(ended.out).toContain("The review has ended: stopped here.");
    expect(ended.out).toContain("Not signed: no record was written.");
    expect(processesIn(dirname(file))).toEqual([]);
    expect(readdirSync(join(dirname(file), ".cache"))).toEqual([]);
    await expect(fetch(address)).rejects.toThrow();
    expect(readFileSync(join(out, "report.html"), "utf8")).toContain("stopped by the user");
    expect(existsSync(join(out, "review-record.json"))).toBe(false);
  }, 120_000);

  test("an invalid option is reported in one line", async () => {
    const file = fixtureCopy("same");
    expect(await review([file, "--page", "--step"])).toMatchObject({
      code: 2,
      err: expect.stringMatching(/^.*--page and --step .*one of them\.\n$/) as string,
    });
    expect(await review([file, "--tolerance", "wide"])).toMatchObject({
      code: 2,
      err: expect.stringMatching(/^.*--tolerance "wide".*number of at least 0\.\n$/) as string,
    });
    const broken = join(scratchFolder(), "broken.ipynb");
    writeFileSync(broken, "{");
    expect(await review([broken, "--page"])).toMatchObject({
      code: 2,
      out: "",
      err: expect.stringContaining("is not a notebook: it is no valid JSON") as string,
    });
  }, 60_000);
});
