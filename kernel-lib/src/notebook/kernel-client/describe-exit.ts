import type { KernelExit } from "./kernel-process";

/** What ended a kernel, as a reader can understand it. */
export function describeExit(exit: KernelExit): string {
  if (/heap out of memory|Reached heap limit|Allocation failed/.test(exit.lastWords)) {
    return "the kernel ran out of memory";
  }
  if (exit.signal) return `the kernel was killed from outside (signal ${exit.signal})`;
  if (exit.code === null) return `the kernel could not be started: ${exit.lastWords.trim()}`;
  // 134 and 139 are how a shell reports SIGABRT and SIGSEGV.
  if (exit.code === 134 || exit.code === 139) return `the kernel crashed (exit code ${exit.code})`;
  return `the cell ended the kernel's process (process.exit, exit code ${exit.code})`;
}
