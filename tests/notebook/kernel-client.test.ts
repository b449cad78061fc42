import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { KernelClient, executeCell } from "../../kernel-lib/src/notebook";
import type { OutputMessage } from "../../kernel-lib/src/notebook";
import { scratchFolder } from "./notebook-in-scratch";

let kernel: KernelClient;
const folder = scratchFolder();

beforeAll(async () => {
  writeFileSync(
    join(folder, "strength.ts"),
    "/**\n * Concrete breakout, clause 17.6.2.\n *\n * @param embedment effective embedment in mm\n * @returns capacity in N\n */\nexport function breakout(embedment: number): number {\n  return 10 * embedment ** 1.5;\n}\n",
  );
  kernel = await KernelClient.start({ workingDirectory: folder });
}, 120_000);
afterAll(() => kernel.shutdown());

async function run(
  code: string,
): Promise<{ reply: Record<string, unknown>; outputs: OutputMessage[] }> {
  const outputs: OutputMessage[] = [];
  const reply = await kernel.execute(code, (message) => outputs.push(message));
  return { reply, outputs: outputs.filter(({ type }) => type !== "execute_input") };
}

describe("the kernel", () => {
  test("introduces itself with its version and the caution", () => {
    expect(kernel.info).toMatchObject({
      status: "ok",
      protocol_version: "5.3",
      language_info: { name: "typescript", file_extension: ".ts" },
    });
    expect(kernel.info["banner"]).toMatch(/^Code comparison \(TypeScript\) \d+\.\d+\.\d+/);
    expect(kernel.info["banner"]).toContain("licensed engineer");
  });

  test("imports a local module, whose documentation shows on hover and whose names are completed", async () => {
    await run('import { breakout } from "./strength";');
    expect((await run("breakout(100)")).outputs[0]?.content["data"]).toEqual({
      "text/plain": "10000",
    });
    const hover = await kernel.request("inspect_request", {
      code: "breakout(100)",
      cursor_pos: 4,
      detail_level: 0,
    });
    expect(hover["found"]).toBe(true);
    const text = String((hover["data"] as Record<string, unknown>)["text/plain"]);
    expect(text.split("\n")[0]).toBe("breakout(embedment: number): number");
    expect(text).toContain("returns: capacity in N");
    expect(text).toContain("clause 17.6.2");
    expect(text).toContain("effective embedment in mm");
    const completion = await kernel.request("complete_request", {
      code: "const x = brea",
      cursor_pos: 14,
    });
    expect(completion).toMatchObject({ status: "ok", cursor_start: 10, cursor_end: 14 });
    expect(completion["matches"]).toContain("breakout");
  });

  test.each([
    ["const a = 1;", "complete"],
    ["function f() {", "incomplete"],
    ["[1, 2", "incomplete"],
  ])("is_complete: %s", async (code, status) => {
    expect((await kernel.request("is_complete_request", { code }))["status"]).toBe(status);
  });

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

  test("an error in an awaited function still leads to the cell's line", async () => {
    const { reply } = await run(
      "async function reads() {\n  await 1;\n  await Promise.resolve();\n  throw new RangeError('below 0');\n}\nawait reads();",
    );
    const text = (reply["traceback"] as string[]).join("\n");
    expect(text).toMatch(/> 4 \|   throw new RangeError/);
    expect(text).toMatch(/at cell \[\d+\], line 6/);
  });

  test("several type errors show the lines of the first", async () => {
    const { reply } = await run("const a: string = 1;\nconst b: string = 2;\nconst c: string = 3;");
    const text = (reply["traceback"] as string[]).join("\n");
    expect(text.match(/column 7: Type 'number'/g)).toHaveLength(3);
    expect(text.match(/^> /gm)).toHaveLength(1);
  });

  test("a type error is told with line, column and the line's text", async () => {
    const { reply } = await run("const first = 1;\nconst wrong: string = first;");
    expect(reply).toMatchObject({
      status: "error",
      ename: "CompileError",
      evalue: "line 2: Type 'number' is not assignable to type 'string'.",
    });
    expect((reply["traceback"] as string[]).join("\n")).toContain(
      "> 2 | const wrong: string = first;\n    |       ^",
    );
  });

  test("an error has name, value and cause; a thrown text too", async () => {
    const { reply, outputs } = await run(
      "\n\nthrow new TypeError('outer', { cause: new Error('inner') });",
    );
    expect(reply).toMatchObject({ ename: "TypeError", evalue: "outer" });
    expect((reply["traceback"] as string[]).join("\n")).toMatch(
      /cell \[\d+\], line 3, column 7[\s\S]*caused by Error: inner/,
    );
    expect(outputs.map(({ type }) => type)).toEqual(["error"]);
    expect((await run("throw 'words'")).reply).toMatchObject({ ename: "Thrown", evalue: "words" });
  });

  test("after a failed cell the next one runs at once", async () => {
    const [failed, next] = await Promise.all([run("throw new Error('x')"), run("7")]);
    expect([failed.reply["status"], next.reply["status"]]).toEqual(["error", "ok"]);
  });

  test("a library that is not found says where it is looked for", async () => {
    const { reply } = await run('import { nothing } from "kernel-lib-of-nowhere";');
    expect(reply["evalue"]).toContain("Cannot find module 'kernel-lib-of-nowhere'");
    expect((reply["traceback"] as string[]).join("\n")).toContain("run `npm ci` there once");
  });

  test("20,000 lines on both channels arrive in order, none lost", async () => {
    const { outputs } = await run(
      "for (let i = 0; i < 20000; i++) (i % 2 ? console.error : console.log)(i);",
    );
    const text = outputs.map(({ content }) => String(content["text"])).join("");
    expect(text).toBe(Array.from({ length: 20000 }, (_, index) => `${index}\n`).join(""));
  });

  test("a frame of danfojs is shown as a table, what is missing as missing", async () => {
    // The frame library is found from the project's folder only; its class is what the kernel looks
    // at.
    const { outputs } = await run(
      "class DataFrame { columns = ['size', 'load']; index = [0, 1]; values = [['10 <mm>', 1.23456789], ['13', NaN]]; }\nnew DataFrame()",
    );
    const series = await run(
      "class Series { columns = ['load']; index = [0, 1]; values = [1.5, null]; }\nnew Series()",
    );
    expect((series.outputs[0]?.content["data"] as Record<string, string>)["text/plain"]).toBe(
      "row  load\n0     1.5\n1       -\n2 rows, 1 columns",
    );
    const data = outputs[0]?.content["data"] as Record<string, string>;
    expect(data["text/plain"]).toBe(
      "row  size        load\n0    10 <mm>  1.23457\n1    13             -\n2 rows, 2 columns",
    );
    expect(data["text/html"]).toContain(
      '<td style="text-align: left"><div align="left">10 &lt;mm&gt;</div></td>',
    );
  });

  test("a promise as last value is waited for; undefined and null show nothing", async () => {
    expect(
      (await run("new Promise((done) => setTimeout(() => done('later'), 20))")).outputs[0]?.content[
        "data"
      ],
    ).toEqual({ "text/plain": "later" });
    expect((await run("undefined")).outputs).toEqual([]);
    expect((await run("null")).outputs).toEqual([]);
  });
});
