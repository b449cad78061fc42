"use strict";
const { Socket } = require("node:net");

/**
 * Ends this process when the one that started it is gone. The starter holds the other end of
 * an open pipe, whose number it gives in CODE_COMPARISON_LIFELINE; without it nothing is done
 * (Jupyter manages its kernels itself).
 */
function followParent() {
  const descriptor = Number(process.env.CODE_COMPARISON_LIFELINE);
  delete process.env.CODE_COMPARISON_LIFELINE;
  if (!Number.isInteger(descriptor) || descriptor < 3) return;
  try {
    const pipe = new Socket({ fd: descriptor, readable: true, writable: false });
    pipe.on("close", () => process.exit(0)).on("error", () => process.exit(0)).resume();
    pipe.unref();
  } catch {
    // No such pipe: started by hand with the variable left over.
  }
}

module.exports = { followParent };
