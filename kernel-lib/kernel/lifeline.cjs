"use strict";
const { Socket } = require("node:net");

/**
 * The number of the pipe whose other end the starter of this process holds open, given in
 * CODE_COMPARISON_LIFELINE; undefined without it (Jupyter manages its kernels itself).
 */
function lifeline() {
  const descriptor = Number(process.env.CODE_COMPARISON_LIFELINE);
  delete process.env.CODE_COMPARISON_LIFELINE;
  return Number.isInteger(descriptor) && descriptor >= 3 ? descriptor : undefined;
}

/**
 * Calls `end` when the starter of this process is gone, and `interrupt` when it sends a byte.
 * Undefined when there is no such pipe.
 */
function followParent(descriptor, end, interrupt) {
  if (descriptor === undefined) return undefined;
  try {
    const pipe = new Socket({ fd: descriptor, readable: true, writable: false });
    return pipe.on("close", end).on("error", end).on("data", interrupt);
  } catch {
    // Started by hand with the variable left over.
    return undefined;
  }
}

module.exports = { followParent, lifeline };
