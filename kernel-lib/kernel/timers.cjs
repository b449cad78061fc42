"use strict";
// An interrupt ends what cells have waiting: their timers never fire again, and what awaited them
// never goes on. Otherwise a loop with a timer in it would run to its end under the next cell.
const timers = require("node:timers");
const promises = require("node:timers/promises");
const { promisify } = require("node:util");

/** Node's own, for the kernel's own files: no interrupt ends these. */
const own = {
  setTimeout: timers.setTimeout,
  clearTimeout: timers.clearTimeout,
  setImmediate: timers.setImmediate,
};

/** Counts interrupts: what was begun in an earlier era does not go on. */
let era = 0;
/** True while the compiler works: its timers are not a cell's. */
let exempt = false;
const waiting = new Set();
const never = new Promise(() => undefined);

/** Puts the watched functions in the place of Node's. */
function watchTimers() {
  const watched = {
    setTimeout: started(timers.setTimeout, true),
    setInterval: started(timers.setInterval, false),
    setImmediate: started(timers.setImmediate, true),
    clearTimeout: cleared(timers.clearTimeout),
    clearInterval: cleared(timers.clearInterval),
    clearImmediate: cleared(timers.clearImmediate),
  };
  for (const name of ["setTimeout", "setImmediate"]) {
    promises[name] = awaited(promises[name]);
    Object.defineProperty(watched[name], promisify.custom, { value: promises[name] });
  }
  promises.setInterval = ticks(promises.setInterval);
  const { scheduler } = promises;
  scheduler.wait = awaited(scheduler.wait.bind(scheduler));
  Object.assign(timers, watched);
  Object.assign(globalThis, watched);
}

function started(start, once) {
  return (callback, ...rest) => {
    if (exempt || typeof callback !== "function") return start(callback, ...rest);
    const born = era;
    const handle = start(
      function (...given) {
        if (once) waiting.delete(handle);
        return born === era ? callback.apply(this, given) : undefined;
      },
      ...rest,
    );
    waiting.add(handle);
    return handle;
  };
}

function cleared(clear) {
  return (handle) => {
    waiting.delete(handle);
    clear(handle);
  };
}

function awaited(wait) {
  return (...given) => stillWanted(wait(...given));
}

function ticks(start) {
  return async function* (...given) {
    const born = era;
    for await (const value of start(...given)) {
      if (born !== era) break;
      yield value;
    }
    if (born !== era) await never;
  };
}

/**
 * Goes on as the promise does, unless an interrupt came between. An async function, as the
 * engine's traces of errors lead through these.
 */
async function stillWanted(promise) {
  const born = era;
  try {
    return await promise;
  } finally {
    if (born !== era) await never;
  }
}

/** Ends every timer of a cell, and whatever awaits one. */
function endTimers() {
  era += 1;
  for (const handle of waiting) {
    if (typeof handle.close === "function") timers.clearTimeout(handle);
    else timers.clearImmediate(handle);
  }
  waiting.clear();
}

/** Work whose timers belong to no cell. */
function withoutTimers(work) {
  const before = exempt;
  exempt = true;
  try {
    return work();
  } finally {
    exempt = before;
  }
}

/** What the cells of an awaited value wait for: see common-js-emit.cjs. */
function live(value) {
  return typeof value?.then === "function" ? stillWanted(value) : value;
}

/** The same for what `for await` goes through. */
async function* liveEach(values) {
  const born = era;
  for await (const value of values) {
    if (born !== era) break;
    yield value;
  }
  if (born !== era) await never;
}

module.exports = { endTimers, live, liveEach, own, watchTimers, withoutTimers };
