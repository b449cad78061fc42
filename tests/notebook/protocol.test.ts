import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { KernelClient } from "../../kernel-lib/src/notebook";
import type { OutputMessage } from "../../kernel-lib/src/notebook";
import { scratchFolder } from "./notebook-in-scratch";

// Jupyter's messaging protocol 5.3 (jupyter-client.readthedocs.io, "Messaging in Jupyter"): names of
// the messages and what their replies hold; from memory.
describe("every message of the protocol", () => {
  let kernel: KernelClient;
  beforeAll(async () => {
    kernel = await KernelClient.start({ workingDirectory: scratchFolder() });
    await run("const first_mm = 1;");
    await run("'shown'");
    await run("const first_mm = 1;");
    await run("first_mm + 1");
  }, 120_000);
  afterAll(() => kernel.shutdown());

  async function run(code: string, more: object = {}): Promise<Record<string, unknown>> {
    const content = { code, silent: false, store_history: true, allow_stdin: true, ...more };
    return kernel.request("execute_request", content);
  }

  async function history(request: object): Promise<unknown> {
    const reply = await kernel.request("history_request", { output: false, raw: true, ...request });
    expect(reply["status"]).toBe("ok");
    return reply["history"];
  }

  it("kernel_info: what the protocol asks of it", () => {
    expect(kernel.info).toMatchObject({
      status: "ok",
      protocol_version: "5.3",
      implementation: "code-comparison",
      language_info: { name: "typescript", mimetype: "text/typescript", file_extension: ".ts" },
      banner: expect.any(String) as string,
      help_links: [],
    });
  });

  it("execute: counts, refuses user expressions in their place, runs silently without counting", async () => {
    const reply = await run("2", { user_expressions: { a: "1 + 1" } });
    expect(reply).toMatchObject({
      status: "ok",
      execution_count: 5,
      user_expressions: { a: { status: "error", ename: "NotSupported" } },
    });
    const outputs: OutputMessage[] = [];
    const silent = await kernel.request(
      "execute_request",
      { code: "3", silent: true, store_history: false },
      (message) => outputs.push(message),
    );
    expect(silent).toMatchObject({ status: "ok", execution_count: 5 });
    expect(outputs).toEqual([]);
  });

  it("history: the tail, a range, a pattern, without repeats, with outputs", async () => {
    expect(await history({ hist_access_type: "tail", n: 2 })).toEqual([
      [1, 4, "first_mm + 1"],
      [1, 5, "2"],
    ]);
    expect(await history({ hist_access_type: "range", session: 0, start: 1, stop: 3 })).toEqual([
      [1, 1, "const first_mm = 1;"],
      [1, 2, "'shown'"],
    ]);
    expect(await history({ hist_access_type: "range", session: -1, start: 1 })).toEqual([]);
    expect(
      await history({ hist_access_type: "search", pattern: "*first?mm*", n: 9, unique: true }),
    ).toEqual([
      [1, 3, "const first_mm = 1;"],
      [1, 4, "first_mm + 1"],
    ]);
    expect(await history({ hist_access_type: "range", start: 1, stop: 3, output: true })).toEqual([
      [1, 1, ["const first_mm = 1;", null]],
      [1, 2, ["'shown'", "shown"]],
    ]);
  });

  // ECMA-262: a template literal and a comment may go on in the next line, a quoted text and a
  // regular expression end with theirs.
  it.each([
    ["1 + 1", "complete"],
    ["await x", "complete"],
    ["", "complete"],
    ["// note", "complete"],
    ["const f = <T>(x: T) => x;", "complete"],
    ["function f() {", "incomplete"],
    ["foo(", "incomplete"],
    ["1 +", "incomplete"],
    ["if (a) {} else", "incomplete"],
    ["try {}", "incomplete"],
    ["/* note", "incomplete"],
    ["`open", "incomplete"],
    ["`open\n\n", "incomplete"],
    ["`open ${1 + ", "incomplete"],
    ["`open ${`inner`}", "incomplete"],
    ["`a ${`b`}`", "complete"],
    ["'open", "invalid"],
    ["/open", "invalid"],
    ["const = 3", "invalid"],
    ["const a 3", "invalid"],
    ["foo( }", "invalid"],
    ["}", "invalid"],
    ["let x = 1; }", "invalid"],
    ["else {", "invalid"],
  ])("is_complete: %j is %s", async (code, status) => {
    expect((await kernel.request("is_complete_request", { code }))["status"]).toBe(status);
  });

  it("is_complete: indents after an opening bracket", async () => {
    const reply = await kernel.request("is_complete_request", { code: "  if (a) {" });
    expect(reply).toEqual({ status: "incomplete", indent: "    " });
  });

  it("complete and inspect: positions count characters, also those of two units", async () => {
    const code = 'const s = "𝜎𝜎"; first_';
    const cursor_pos = [...code].length;
    expect(await kernel.request("complete_request", { code, cursor_pos })).toEqual({
      status: "ok",
      matches: ["first_mm"],
      cursor_start: cursor_pos - 6,
      cursor_end: cursor_pos,
      metadata: {},
    });
    const found = await kernel.request("inspect_request", {
      code: '"𝜎𝜎"; first_mm',
      cursor_pos: 8,
      detail_level: 0,
    });
    expect(found).toMatchObject({ found: true, data: { "text/plain": "const first_mm: 1" } });
  });

  it.each([["Math.max(1, |"], ["Math.max(1, |)"], ["Math.max(1|"], ["Math.max(|"]])(
    "inspect: inside %s the function is described",
    async (cell) => {
      const reply = await kernel.request("inspect_request", {
        code: cell.replace("|", ""),
        cursor_pos: cell.indexOf("|"),
        detail_level: 0,
      });
      expect(reply["found"]).toBe(true);
      expect((reply["data"] as Record<string, string>)["text/plain"]).toContain("Math.max");
    },
  );

  it("inspect: behind a closed call nothing", async () => {
    const reply = await kernel.request("inspect_request", { code: "Math.max(1);", cursor_pos: 12 });
    expect(reply).toMatchObject({ status: "ok", found: false, data: {} });
  });

  it.each(["complete_request", "inspect_request", "is_complete_request"])(
    "%s without code is refused in words",
    async (type) => {
      expect(await kernel.request(type, {}, undefined, "shell", 2000)).toMatchObject({
        status: "error",
        ename: "NoCode",
      });
    },
  );

  it("comm_info: there are none, for any target", async () => {
    const none = { status: "ok", comms: {} };
    expect(await kernel.request("comm_info_request", {})).toEqual(none);
    expect(await kernel.request("comm_info_request", { target_name: "jupyter.widget" })).toEqual(
      none,
    );
  });

  it("comm_open: what is opened is closed at once", async () => {
    const heard: OutputMessage[] = [];
    const content = { comm_id: "c1", target_name: "jupyter.widget", data: {} };
    const listen = (message: OutputMessage): number => heard.push(message);
    // The protocol knows no reply to it.
    await expect(kernel.request("comm_open", content, listen, "shell", 300)).rejects.toThrow(
      "did not answer",
    );
    expect(heard).toEqual([{ type: "comm_close", content: { comm_id: "c1", data: {} } }]);
  });

  it("connect, interrupt: answered", async () => {
    expect(await kernel.request("connect_request", {})).toMatchObject({
      status: "ok",
      shell_port: expect.any(Number) as number,
      hb_port: expect.any(Number) as number,
    });
    const interrupt = kernel.request("interrupt_request", {}, undefined, "control", 2000);
    expect(await interrupt).toEqual({ status: "ok" });
  });

  it.each([
    ["debug_request", "control"],
    ["create_subshell_request", "control"],
    ["unheard_of_request", "shell"],
  ] as const)("%s: refused in words, and no cell hears of it", async (type, channel) => {
    const heard: OutputMessage[] = [];
    const listen = (message: OutputMessage): number => heard.push(message);
    expect(await kernel.request(type, {}, listen, channel, 2000)).toEqual({
      status: "error",
      ename: "NotSupported",
      evalue: `this kernel does not answer ${type}`,
      traceback: [],
    });
    expect(heard).toEqual([]);
  });

  it("typed input: a cell that asks for it fails at once, and says what to do", async () => {
    const reply = await run("process.stdin.on('data', () => 0);");
    expect(reply).toMatchObject({ status: "error", ename: "NoTypedInput" });
    expect(reply["evalue"]).toContain("the cell tagged parameters");
  });

  it("answers while a cell waits", async () => {
    const waiting = run("await new Promise((done) => setTimeout(done, 300));\n'waited'");
    const reply = await kernel.request("complete_request", { code: "first_", cursor_pos: 6 });
    expect(reply["matches"]).toEqual(["first_mm"]);
    expect((await waiting)["status"]).toBe("ok");
  });

  // The last: the kernel is gone after it.
  it("shutdown: says whether it restarts, and the process ends", async () => {
    await run("setInterval(() => 0, 1000);");
    const reply = await kernel.request("shutdown_request", { restart: true }, undefined, "control");
    expect(reply).toEqual({ status: "ok", restart: true });
    expect(await kernel.exited).toMatchObject({ code: 0, signal: null });
  });
});
