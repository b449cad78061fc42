import { randomUUID } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** The five channels of a kernel. */
export const CHANNELS = ["shell", "iopub", "stdin", "control", "hb"] as const;
export type Channel = (typeof CHANNELS)[number];

/** A kernel's connection: what its connection file says, and where that file lies. */
export interface Connection {
  readonly key: string;
  readonly file: string;
  /** The address of a channel, for `socket.connect`. */
  readonly address: (channel: Channel) => string;
  /** Removes the connection file and the sockets' folder. */
  readonly remove: () => void;
}

// A Unix socket's path may hold 103 characters on macOS, 107 on Linux.
const LONGEST_SOCKET_PATH = 100;

/**
 * Prepares a connection: a private folder (mode 700) with the connection file in it.
 * Unix sockets inside that folder where the system has them (no port can be taken by another
 * process between choosing and binding it, and no other user can reach them); TCP on 127.0.0.1
 * otherwise.
 */
export async function createConnection(
  transport: "ipc" | "tcp" | "best" = "best",
): Promise<Connection> {
  const folder = mkdtempSync(join(tmpdir(), "kernel-"));
  const socketPath = join(folder, "s");
  const ipcFits = process.platform !== "win32" && socketPath.length + 2 <= LONGEST_SOCKET_PATH;
  const ipc = transport === "ipc" || (transport === "best" && ipcFits);
  const ip = ipc ? socketPath : "127.0.0.1";
  const ports = ipc ? CHANNELS.map((_, index) => index + 1) : await freePorts(CHANNELS.length);
  const key = randomUUID();
  const info: Record<string, string | number> = {
    transport: ipc ? "ipc" : "tcp",
    ip,
    key,
    signature_scheme: "hmac-sha256",
    kernel_name: "code-comparison",
  };
  CHANNELS.forEach((channel, index) => (info[`${channel}_port`] = ports[index] ?? 0));
  const file = join(folder, "connection.json");
  writeFileSync(file, JSON.stringify(info), { mode: 0o600 });
  return {
    key,
    file,
    address: (channel) => `${ipc ? "ipc" : "tcp"}://${ip}:${info[`${channel}_port`] ?? 0}`,
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

async function freePorts(count: number): Promise<number[]> {
  const servers = Array.from({ length: count }, () => createServer());
  // All are held open until the last is known, so that no port is handed out twice.
  await Promise.all(
    servers.map((server) => new Promise<void>((done) => server.listen(0, "127.0.0.1", done))),
  );
  const ports = servers.map((server) => (server.address() as AddressInfo).port);
  await Promise.all(servers.map((server) => new Promise((done) => server.close(done))));
  return ports;
}
