import { spawn } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, readdirSync, statSync, writeFileSync } from "node:fs";
import { hostname } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { KernelClient } from "../../kernel-lib/src/notebook";
import { kernelArguments } from "../../kernel-lib/src/notebook/kernel-client";
import { makeScratchCopy } from "../../kernel-lib/src/notebook/review/scratch-copy";
import { createConnection } from "../../kernel-lib/src/notebook/wire-protocol";
import { notebookOf, scratchFolder } from "./notebook-in-scratch";

const posix = process.platform !== "win32";

/** A child in the background, one that keeps the kernel's own pipes open, and one of a shell. */
const CHILDREN = `import { spawn } from "node:child_process";
const silent = spawn("sleep", ["300"], { stdio: "ignore" });
const loud = spawn("sleep", ["300"], { stdio: "inherit" });
const shell = spawn("sh", ["-c", "sleep 300 & echo $!; wait"], { stdio: ["ignore", "pipe", "ignore"] });
const inner = await new Promise((told) => shell.stdout.once("data", (text) => told(Number(text))));
[silent.pid, loud.pid, shell.pid, inner].join(" ")`;

const started: number[] = [];
afterAll(() => {
  for (const pid of started) if (isRunning(pid)) process.kill(pid, "SIGKILL");
});

describe.skipIf(!posix)("what a cell started ends with its kernel", () => {
  test.each([
    ["is shut down", (kernel: KernelClient) => kernel.shutdown()],
    ["is killed", (kernel: KernelClient) => kernel.kill()],
    ["is told to end", async (kernel: KernelClient) => void process.kill(kernel.pid, "SIGTERM")],
  ])("when it %s", { timeout: 60_000 }, async (_how, end) => {
    const kernel = await KernelClient.start({ workingDirectory: scratchFolder() });
    let shown = "";
    await kernel.execute(CHILDREN, ({ type, content }) => {
      if (type === "execute_result")
        shown = String((content["data"] as Record<string, unknown>)["text/plain"]);
    });
    const pids = shown.split(" ").map(Number);
    started.push(...pids);
    expect(pids.map(isRunning)).toEqual([true, true, true, true]);
    await Promise.resolve(end(kernel)).catch(() => undefined);
    await kernel.exited;
    expect(await allEnd(pids)).toEqual([]);
  });
});

test.skipIf(!posix)(
  "under Jupyter the kernel ends with its parent, in the middle of an endless loop too",
  { timeout: 60_000 },
  async () => {
    const connection = await createConnection();
    const ready = join(scratchFolder(), "ready");
    // Jupyter's part: starts the kernel in a session of its own and names itself in JPY_PARENT_PID.
    const jupyter = `const { spawn } = require("node:child_process");
      const kernel = spawn(process.execPath, ${JSON.stringify(kernelArguments(connection.file))},
        { detached: true, stdio: "ignore", env: { ...process.env, JPY_PARENT_PID: String(process.pid) } });
      console.log(kernel.pid); setInterval(() => 0, 1000);`;
    const parent = spawn(process.execPath, ["-e", jupyter], {
      stdio: ["ignore", "pipe", "inherit"],
    });
    const pid = await new Promise<number>((told) =>
      parent.stdout.once("data", (text: Buffer) => told(Number(String(text)))),
    );
    started.push(pid);
    const { encodeRequest, openChannels } =
      await import("../../kernel-lib/src/notebook/wire-protocol");
    const channels = await openChannels(connection, () => undefined);
    const code = `(await import("node:fs")).writeFileSync(${JSON.stringify(ready)}, "");\nfor (;;) {}`;
    const { frames } = encodeRequest(connection.key, "s", "execute_request", { code });
    await channels.send("shell", frames);
    await until(() => existsSync(ready));
    expect(isRunning(pid)).toBe(true);
    parent.kill("SIGKILL");
    expect(await allEnd([pid])).toEqual([]);
    channels.close();
    connection.remove();
  },
);

describe("scratch copies of reviews", () => {
  test("those of killed reviews are removed at the next start, those of running ones stay", async () => {
    const project = scratchFolder();
    writeFileSync(join(project, "package-lock.json"), "{}");
    mkdirSync(join(project, "data"));
    writeFileSync(join(project, "data", "tests.csv"), "a\n1\n");
    const notebook = join(project, "n.ipynb");
    writeFileSync(notebook, readFileSync(notebookOf(["1"])));
    const cache = join(project, ".cache");
    const machine = hostname().replace(/\W/g, "").slice(0, 24);
    // Above the largest number that Linux gives to a process.
    const killed = join(cache, `review-${machine}-4999999-abcdef`);
    mkdirSync(join(killed, "data"), { recursive: true });
    writeFileSync(join(killed, "data", "tests.csv"), "a\n", { mode: 0o444 });
    const elsewhere = join(cache, "review-other-4999999-abcdef");
    mkdirSync(elsewhere);
    const running = await makeScratchCopy(notebook, ["data"]);
    const second = await makeScratchCopy(notebook, ["data"]);
    expect(existsSync(killed)).toBe(false);
    expect(existsSync(elsewhere)).toBe(true);
    expect(existsSync(running.folder)).toBe(true);
    expect(statSync(join(second.project, "data", "tests.csv")).mode & 0o222).toBe(0);
    // POSIX unlink(2): what may be removed is decided by the folder that holds it.
    for (const folder of foldersIn(second.project))
      expect(statSync(folder).mode & 0o200).toBe(0o200);
    await running.remove();
    await second.remove();
    expect(readdirSync(cache)).toEqual(["review-other-4999999-abcdef"]);
  });
});

function foldersIn(folder: string): string[] {
  return [
    folder,
    ...readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .flatMap((entry) => foldersIn(join(folder, entry.name))),
  ];
}

/** Those still running after five seconds. */
async function allEnd(pids: readonly number[]): Promise<number[]> {
  await until(() => !pids.some(isRunning), 5000);
  return pids.filter(isRunning);
}

async function until(holds: () => boolean, limitMs = 30_000): Promise<void> {
  for (const end = Date.now() + limitMs; !holds() && Date.now() < end;)
    await new Promise((later) => setTimeout(later, 25));
}

/** A process that has ended and is not yet collected by its parent does not run. */
function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return (
      !existsSync(`/proc/${pid}/stat`) || !/\) Z /.test(readFileSync(`/proc/${pid}/stat`, "utf8"))
    );
  } catch {
    return false;
  }
}
