import { execFileSync, spawnSync } from "node:child_process";
import { pbkdf2 } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { expect, test } from "vitest";
import * as zeromq from "zeromq";
import { KernelClient, kernelArguments } from "../../kernel-lib/src/notebook";
import { scratchFolder } from "./notebook-in-scratch";

const { changeZeromq, receiveOnceBound } = createRequire(import.meta.url)(
  "../../kernel-lib/kernel/message-loss.cjs",
) as {
  changeZeromq: (library: typeof zeromq) => typeof zeromq;
  receiveOnceBound: <T>(binding: Promise<T>) => Promise<T>;
};

/**
 * What comes of two messages that reach a socket while it is being bound, when its owner receives
 * from it before it binds it, as tslab does: the texts of the messages, and the code of the error
 * that ended the loop.
 */
async function receivedWhileBinding(
  library: typeof zeromq,
  waitForBinding: (binding: Promise<void>) => void,
): Promise<(string | undefined)[]> {
  const received: (string | undefined)[] = [];
  const peer = new zeromq.Dealer();
  const socket = new library.Router();
  const folder = scratchFolder();
  const address = `ipc://${join(folder, "peer")}`;
  await peer.bind(address);
  const loop = (async () => {
    for await (const frames of socket) received.push(frames.at(-1)?.toString());
  })().catch((error: { code?: string }) => void received.push(error.code));
  socket.connect(address);
  // Binding takes its turn in the pool of threads, which is kept busy for a while.
  const threads = Number(process.env["UV_THREADPOOL_SIZE"] ?? 4);
  const busy = Array.from(
    { length: threads },
    () => new Promise((done) => pbkdf2("a", "b", 600_000, 64, "sha512", done)),
  );
  const binding = socket.bind(`ipc://${join(folder, "socket")}`);
  waitForBinding(binding);
  await sleep(30);
  await peer.send("first");
  await peer.send("second");
  await Promise.all([binding, ...busy]);
  await sleep(200);
  peer.close();
  socket.close();
  await loop;
  return received;
}

test("a socket that is received from before it is bound ends at the first message that comes meanwhile: zeromq.js refuses the second receive", async () => {
  expect(await receivedWhileBinding(zeromq, () => undefined)).toEqual(["first", "EBUSY"]);
});

test("the kernel's sockets receive once they are bound, and every message that came before", async () => {
  expect(
    await receivedWhileBinding(changeZeromq(zeromq), (binding) => void receiveOnceBound(binding)),
  ).toEqual(["first", "second"]);
});

if (process.platform !== "linux")
  console.log("skipped: a kernel halted at its start, because processes are looked up in /proc");

test.skipIf(process.platform !== "linux")(
  "a kernel halted while it opens its sockets answers once it goes on, and nothing it prints is lost",
  { timeout: 120_000 },
  async () => {
    const started = KernelClient.start({ workingDirectory: scratchFolder() });
    let pid = 0;
    for (let tries = 0; pid === 0 && tries < 400; tries += 1) {
      await sleep(5);
      pid =
        execFileSync("ps", ["-o", "pid=,args=", "--ppid", String(process.pid)], {
          encoding: "utf8",
        })
          .split("\n")
          .filter((line) => line.includes("--config-path"))
          .map((line) => Number(/\d+/.exec(line)))[0] ?? 0;
    }
    expect(pid).toBeGreaterThan(0);
    const folder =
      /--config-path\s+(\S+)\/connection\.json/.exec(
        readFileSync(`/proc/${pid}/cmdline`, "utf8").replaceAll("\0", " "),
      )?.[1] ?? "";
    while (!readFileSync("/proc/net/unix", "utf8").includes(folder)) await sleep(1);
    process.kill(pid, "SIGSTOP");
    // Long enough for the client's first requests to lie in the sockets.
    await sleep(1000);
    process.kill(pid, "SIGCONT");
    const kernel = await started;
    try {
      const printed: string[] = [];
      const reply = await kernel.execute(
        "for (let i = 0; i < 50; i++) console.log(i);",
        ({ type, content }) => void (type === "stream" && printed.push(String(content["text"]))),
      );
      expect(reply["status"]).toBe("ok");
      expect(printed.join("").trim().split("\n").map(Number)).toEqual(
        Array.from({ length: 50 }, (_, i) => i),
      );
    } finally {
      await kernel.shutdown();
    }
  },
);

test("a kernel that cannot open its sockets says which and ends", () => {
  const folder = scratchFolder();
  const file = join(folder, "connection.json");
  const ports = { shell_port: 1, iopub_port: 2, stdin_port: 3, control_port: 4, hb_port: 5 };
  writeFileSync(
    file,
    JSON.stringify({
      transport: "ipc",
      ip: join(folder, "missing", "kernel"),
      key: "k",
      signature_scheme: "hmac-sha256",
      ...ports,
    }),
  );
  const { status, stderr } = spawnSync(process.execPath, kernelArguments(file), {
    encoding: "utf8",
    timeout: 30_000,
  });
  expect(status).toBe(1);
  expect(stderr).toMatch(/cannot open a socket of the kernel: .*missing/);
});
