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

/** Calls `end` when the starter of this process is gone. */
function followParent(descriptor, end) {
  if (descriptor === undefined) return;
  try {
    const pipe = new Socket({ fd: descriptor, readable: true, writable: false });
    pipe.on("close", end).on("error", end).resume();
    pipe.unref();
  } catch {
    // No such pipe: started by hand with the variable left over.
  }
}

module.exports = { followParent, lifeline };
