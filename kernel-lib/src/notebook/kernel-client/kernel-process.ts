import { spawn } from "node:child_process";
import type { ChildProcess } from "node:child_process";
import { dirname, join } from "node:path";
import type { Writable } from "node:stream";
import { resolvePackageFile } from "./package-files";

/** How the kernel's process ended. */
export interface KernelExit {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  /** The last text it wrote to its own standard error, where Node explains a crash. */
  readonly lastWords: string;
}

export interface KernelProcessOptions {
  /** The kernel's working directory: imports and relative paths in cells start here. */
  readonly workingDirectory: string;
  readonly connectionFile: string;
  /** Extra environment variables. */
  readonly environment?: Readonly<Record<string, string>>;
  /** Limit of the kernel's JavaScript heap in MB; Node's default when left out. */
  readonly heapLimitMB?: number;
}

export interface KernelProcess {
  readonly pid: number;
  readonly exited: Promise<KernelExit>;
  readonly signal: (signal: NodeJS.Signals) => void;
  /**
   * Asks the kernel to stop what it runs: by a byte through the lifeline, which a thread of the
   * kernel reads.
   */
  readonly interrupt: () => void;
}

const LAST_WORDS_LENGTH = 16_384;

/** The preload that must run in the kernel's process before tslab does. */
export function preloadFile(): string {
  return join(__dirname, "..", "..", "..", "kernel", "preload.cjs");
}

/** The program of tslab's own kernel. */
export function tslabProgram(): string {
  return join(dirname(resolvePackageFile("tslab", "package.json")), "bin", "tslab");
}

/**
 * A larger young generation from the start: reading the type declarations makes much short-lived
 * garbage.
 */
const HEAP_ARGUMENTS = ["--max-semi-space-size=8", "--min-semi-space-size=8"];

/**
 * glibc gives every thread that compiles or collects a store of its own, and keeps what was freed
 * in each: some 25 MB.
 */
export const MEMORY_ENVIRONMENT = { MALLOC_ARENA_MAX: "2" } as const;

/**
 * An interrupt may end a timer's callback midway; Node's check of its own bookkeeping would end the
 * process then.
 */
const INTERRUPT_ARGUMENTS = ["--no-force-async-hooks-checks"];

/**
 * danfojs loads a module that later versions of Node call deprecated: the cell that asks first
 * would print that there, and differ.
 */
const WARNING_ARGUMENTS = ["--disable-warning=DEP0040"];

/** The arguments after `node` that start the kernel with a connection file. */
export function kernelArguments(connectionFile: string): string[] {
  return [
    ...HEAP_ARGUMENTS,
    ...INTERRUPT_ARGUMENTS,
    ...WARNING_ARGUMENTS,
    "--require",
    preloadFile(),
    tslabProgram(),
    "kernel",
    "--config-path",
    connectionFile,
  ];
}

/** Starts tslab's kernel as a child process with our preload. */
export function startKernelProcess(options: KernelProcessOptions): KernelProcess {
  const nodeArguments =
    options.heapLimitMB === undefined ? [] : [`--max-old-space-size=${options.heapLimitMB}`];
  const child = spawn(
    process.execPath,
    [...nodeArguments, ...kernelArguments(options.connectionFile)],
    {
      cwd: options.workingDirectory,
      // The fourth pipe is a lifeline: when this process dies, it closes and the kernel ends
      // itself.
      stdio: ["ignore", "pipe", "pipe", "pipe"],
      env: {
        ...MEMORY_ENVIRONMENT,
        ...process.env,
        CODE_COMPARISON_LIFELINE: "3",
        ...options.environment,
      },
      // Ctrl-C in a terminal reaches the whole process group; the kernel is interrupted by us
      // alone.
      detached: process.platform !== "win32",
    },
  );
  const lifeline = child.stdio[3] as Writable | null | undefined;
  // The kernel may end while the byte is on its way; its exit tells that.
  lifeline?.on("error", () => undefined);
  return {
    pid: child.pid ?? -1,
    exited: watchExit(child),
    signal: (signal) => void child.kill(signal),
    interrupt: () => void lifeline?.write("!"),
  };
}

function watchExit(child: ChildProcess): Promise<KernelExit> {
  let lastWords = "";
  child.stdout?.resume();
  child.stderr?.setEncoding("utf8").on("data", (text: string) => {
    lastWords = (lastWords + text).slice(-LAST_WORDS_LENGTH);
  });
  // What cells started belongs to the kernel's group and ends with it, however it ended: a child
  // that lives on would hold the pipes open, too.
  child.once("exit", () => endGroup(child.pid));
  return new Promise((done) => {
    child.once("error", (error) => done({ code: null, signal: null, lastWords: error.message }));
    // `close` comes after the pipes are drained, so that the last words are complete.
    child.once("close", (code, signal) => done({ code, signal, lastWords }));
  });
}

function endGroup(leader: number | undefined): void {
  if (leader === undefined || process.platform === "win32") return;
  try {
    process.kill(-leader, "SIGKILL");
  } catch {
    // Nothing is left of it.
  }
}
