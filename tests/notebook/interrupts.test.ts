import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { KernelClient, executeCell } from "../../kernel-lib/src/notebook";
import type { OutputMessage } from "../../kernel-lib/src/notebook";
import { scratchFolder } from "./notebook-in-scratch";

let kernel: KernelClient;
const folder = scratchFolder();

beforeAll(async () => {
  writeFileSync(join(folder, "strength.ts"), "export const strength = 30;\n");
  kernel = await KernelClient.start({ workingDirectory: folder });
}, 120_000);
afterAll(() => kernel.shutdown());

async function run(code: string): Promise<{ outputs: OutputMessage[] }> {
  const outputs: OutputMessage[] = [];
  await kernel.execute(code, (message) => outputs.push(message));
  return { outputs: outputs.filter(({ type }) => type !== "execute_input") };
}

// A law of the kernel: an interrupted cell is over, whatever it was at.
describe("an interrupted cell", () => {
  test.each([
    ["a loop", "for (;;) {}"],
    ["a loop after an await", "await Promise.resolve();\nfor (;;) {}"],
    ["a loop that waits again and again", "for (;;) await 1;"],
    [
      "a loop in a timer",
      "setTimeout(() => {\n  for (;;) {}\n}, 5);\nawait new Promise(() => {});",
    ],
    [
      "a loop in an immediate",
      "setImmediate(() => {\n  for (;;) {}\n});\nawait new Promise(() => {});",
    ],
    [
      "a loop after reading a file",
      "import { readFile } from 'node:fs/promises';\nawait readFile('strength.ts');\nfor (;;) {}",
    ],
    [
      "code that catches everything",
      "await 1;\ntry {\n  for (;;) {}\n} catch {\n  for (;;) {}\n} finally {\n  for (;;) {}\n}",
    ],
    ["a promise that never settles", "await new Promise(() => {});"],
    ["a slow regular expression", "/^(a+)+$/.test('a'.repeat(40) + 'b')"],
  ])("an interrupt stops %s, is named, and leaves the variables", async (_name, code) => {
    await run("const kept = 42;");
    const stop = new AbortController();
    setTimeout(() => stop.abort(), 300);
    const outcome = await executeCell(
      kernel,
      code,
      { timeLimitSeconds: 60, graceSeconds: 20, signal: stop.signal },
      () => undefined,
    );
    expect(outcome).toMatchObject({
      status: "interrupted",
      ename: "Interrupted",
      kernelAlive: true,
    });
    expect((await run("kept")).outputs[0]?.content["data"]).toEqual({ "text/plain": "42" });
  });

  // Each counts its steps for ever; the library's own file is read as an example of awaited work.
  test.each([
    ["awaits a timer", "for (;;) {\n  await after(5);\n  count.steps++;\n}"],
    [
      "awaits Node's own promise of a timer",
      'import { setTimeout as later } from "node:timers/promises";\nfor (;;) {\n  await later(5);\n  count.steps++;\n}',
    ],
    [
      "awaits a file",
      'import { readFile } from "node:fs/promises";\nfor (;;) {\n  await readFile("strength.ts");\n  count.steps++;\n}',
    ],
    [
      "catches everything",
      "for (;;) {\n  try {\n    await after(5);\n    count.steps++;\n  } catch {\n    count.steps++;\n  } finally {\n    count.steps++;\n  }\n}",
    ],
    [
      "goes through an endless list that comes bit by bit",
      "async function* bits() {\n  for (;;) yield after(5);\n}\nasync function all() {\n  for await (const bit of bits()) count.steps++;\n}\nawait all();",
    ],
    [
      "is not awaited",
      "void (async () => {\n  for (;;) {\n    await after(5);\n    count.steps++;\n  }\n})();\nawait new Promise(() => {});",
    ],
    ["is a timer", "setInterval(() => count.steps++, 5);\nawait new Promise(() => {});"],
    [
      "is a timer that starts the next",
      "const again = () => {\n  count.steps++;\n  setTimeout(again, 5);\n};\nagain();\nawait new Promise(() => {});",
    ],
    [
      "is an immediate that starts the next",
      "const next = () => {\n  count.steps++;\n  setImmediate(next);\n};\nnext();\nawait new Promise(() => {});",
    ],
  ])("after an interrupt nothing goes on of a loop that %s", async (_name, code) => {
    await run(
      "const count = {\n  n: 0,\n  get steps() {\n    return this.n;\n  },\n  set steps(n) {\n    this.n = n;\n    if (n === 3) console.log('going');\n  },\n};\nconst after = (ms: number) => new Promise((done) => setTimeout(done, ms));",
    );
    const steps = async (): Promise<number> => {
      const { outputs } = await run("count.steps");
      return Number((outputs.at(-1)?.content["data"] as Record<string, string>)["text/plain"]);
    };
    const stop = new AbortController();
    const limits = { timeLimitSeconds: 60, graceSeconds: 20, signal: stop.signal };
    const outcome = await executeCell(kernel, code, limits, ({ content }) => {
      if (String(content["text"]).includes("going")) stop.abort();
    });
    expect(outcome).toMatchObject({ status: "interrupted", kernelAlive: true });
    const before = await steps();
    expect(before).toBeGreaterThanOrEqual(3);
    await new Promise((later) => setTimeout(later, 60));
    expect(await steps()).toBe(before);
  });
});
