import { spawn } from "node:child_process";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { partialFile, readNotebook } from "../../kernel-lib/src/notebook";
import { notebookOf, scratchFolder } from "./notebook-in-scratch";

const DIST = join(__dirname, "..", "..", "kernel-lib", "dist");
const built = existsSync(join(DIST, "notebook", "index.js"));
if (!built)
  console.log(
    "skipped: processes killed while they write, as kernel-lib is not built (npm run build)",
  );

describe.skipIf(!built)("a notebook on disk", () => {
  test("is whole after each of twelve kills in the middle of writing it", async () => {
    const file = notebookOf(["1"]);
    // Two megabytes, so that a write takes a while; the two texts differ from end to end.
    const writer = `const { readNotebook, writeNotebook } = require(${JSON.stringify(join(DIST, "notebook", "format"))});
      (async () => { const notebook = await readNotebook(process.argv[1]);
        for (let turn = 0; ; turn++) { notebook.cells[0].source = String(turn % 2).repeat(2e6); await writeNotebook(process.argv[1], notebook); if (turn === 0) process.stdout.write("writing"); } })();`;
    const seen = new Set<string>();
    for (let time = 0; time < 12; time++) {
      const child = spawn(process.execPath, ["-e", writer, file], {
        stdio: ["ignore", "pipe", "inherit"],
      });
      await new Promise((started) => child.stdout.once("data", started));
      // Spread over several writes, at a different point of one each time.
      await new Promise((later) => setTimeout(later, 7 * time));
      child.kill("SIGKILL");
      await new Promise((gone) => child.once("close", gone));
      const source = String((await readNotebook(file)).cells[0]?.source);
      expect(source.length).toBe(2e6);
      seen.add(source[0] ?? "");
      expect(new Set(source).size, "a mixture of two writes").toBe(1);
    }
    expect([...seen].every((digit) => digit === "0" || digit === "1")).toBe(true);
  });

  test.each(["SIGINT", "SIGKILL"] as const)(
    "stays as it was when `run` is ended by %s in the middle of a cell",
    async (signal) => {
      const pids = join(scratchFolder(), "pid");
      const file = notebookOf([
        `import { writeFileSync } from "node:fs";\nwriteFileSync(${JSON.stringify(pids)}, String(process.pid));\n"before"`,
        "// Never ends\nfor (;;) {}",
      ]);
      const before = readFileSync(file, "utf8");
      const bin = join(DIST, "cli", "main.js");
      const child = spawn(process.execPath, [bin, "run", file, "--fresh"], {
        stdio: ["ignore", "pipe", "pipe"],
      });
      let told = "";
      await new Promise<void>((running) =>
        child.stdout.on(
          "data",
          (text: Buffer) => (told += String(text)).includes("[1/2]") && running(),
        ),
      );
      await new Promise((later) => setTimeout(later, 300));
      child.kill(signal);
      const code = await new Promise((gone) => child.once("close", gone));
      expect(code).not.toBe(0);
      expect(readFileSync(file, "utf8")).toBe(before);
      // The kernel must not live on, though its loop hears nothing.
      const kernel = Number(readFileSync(pids, "utf8"));
      for (let tries = 0; tries < 100 && isAlive(kernel); tries++)
        await new Promise((later) => setTimeout(later, 100));
      expect(isAlive(kernel)).toBe(false);
      // Ctrl-C gives time to keep what ran; a kill does not.
      expect(existsSync(partialFile(file))).toBe(signal === "SIGINT");
      if (signal === "SIGINT")
        expect((await readNotebook(partialFile(file))).cells[0]).toMatchObject({
          outputs: [{ data: { "text/plain": ["before"] } }],
        });
    },
  );

  test("is read again after a half-written file of another program was put in its place, with a clear message", async () => {
    const file = notebookOf(["1"]);
    writeFileSync(file, readFileSync(file, "utf8").slice(0, 40));
    await expect(readNotebook(file)).rejects.toThrow("no valid JSON");
  });
});

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}
