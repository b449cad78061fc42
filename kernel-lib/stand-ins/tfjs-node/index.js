"use strict";
// The frame library loads a tensor package that downloads a native binary at install time and
// computes in single precision. Frames here only show, filter and join tables, so tensors are
// answered with a clear error.
class Tensor {
  constructor() {
    throw new Error(
      "Tensor arithmetic is not part of this project (it is single precision); use kernel-lib's statistics instead.",
    );
  }
}

const known = { Tensor };

module.exports = new Proxy(known, {
  get(target, name) {
    if (name in target || typeof name === "symbol" || name === "default" || name === "__esModule")
      return target[name];
    return function tensorsAreNotAvailable() {
      throw new Error(
        `Tensor function "${String(name)}" is not part of this project (it is single precision); use kernel-lib's statistics instead.`,
      );
    };
  },
});
