/**
 * How often the kernel was interrupted. An interrupt ends what a cell waits for, and with it
 * whatever the library queued behind that.
 */
export function interruptsSoFar(): number {
  const count = (globalThis as Record<symbol, unknown>)[Symbol.for("code-comparison.interrupts")];
  return typeof count === "number" ? count : 0;
}
