import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { setTimeout as sleep } from "node:timers/promises";
import { expect, test } from "vitest";
import { KernelClient } from "../../kernel-lib/src/notebook";
import { scratchFolder } from "./notebook-in-scratch";

if (process.platform !== "linux") console.log("skipped: a kernel halted at its start, because processes are looked up in /proc");

/** Number of ends of connections at the sockets of a folder, in the system's table; those not yet accepted count, too. */
function connections(folder: string): number {
  return readFileSync("/proc/net/unix", "utf8").split("\n").filter((line) => line.includes(folder)).length;
}

test.skipIf(process.platform !== "linux")("a kernel that does not answer at first is asked again over new sockets, and nothing it prints is lost", { timeout: 120_000 }, async () => {
  const folder = scratchFolder();
  const started = KernelClient.start({ workingDirectory: folder });
  let pid = 0;
  for (let tries = 0; pid === 0 && tries < 400; tries += 1) {
    await sleep(5);
    pid = execFileSync("ps", ["-o", "pid=,args=", "--ppid", String(process.pid)], { encoding: "utf8" }).split("\n").filter((line) => line.includes("--config-path")).map((line) => Number(/\d+/.exec(line)))[0] ?? 0;
  }
  expect(pid).toBeGreaterThan(0);
  // Long enough for its sockets to be there; then it sleeps longer than the client waits before it opens others.
  const connection = /--config-path\s+(\S+)\/connection\.json/.exec(readFileSync(`/proc/${pid}/cmdline`, "utf8").replaceAll("\0", " "))?.[1] ?? "";
  while (connections(connection) === 0) await sleep(5);
  process.kill(pid, "SIGSTOP");
  await sleep(500);
  const before = connections(connection);
  await sleep(6000);
  const after = connections(connection);
  process.kill(pid, "SIGCONT");
  // A sleeping kernel drops no end of its own, so more can only be new ones.
  expect(after).toBeGreaterThan(before);
  const kernel = await started;
  try {
    const printed: string[] = [];
    const reply = await kernel.execute("for (let i = 0; i < 50; i++) console.log(i);", ({ type, content }) => void (type === "stream" && printed.push(String(content["text"]))));
    expect(reply["status"]).toBe("ok");
    expect(printed.join("").trim().split("\n").map(Number)).toEqual(Array.from({ length: 50 }, (_, i) => i));
  } finally {
    await kernel.shutdown();
  }
});
