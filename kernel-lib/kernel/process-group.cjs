"use strict";
// What a cell started must not outlive the kernel. Children belong to the kernel's group of
// processes, which our runner and Jupyter both open for it; one that a cell detached on purpose
// has a group of its own and stays.

/**
 * Ends the kernel at once and with it its children. For when its starter is gone: no exit code is
 * heard any more.
 */
function endGroup() {
  signalGroup("SIGKILL");
  process.kill(process.pid, "SIGKILL");
}

/** Ends the children when the kernel's process ends; its exit code or signal stays. */
function endChildrenAtExit() {
  // Heard, so that the signal to the whole group does not end the kernel halfway.
  const ended = () => {
    signalGroup("SIGTERM");
    process.removeListener("SIGTERM", ended);
    process.kill(process.pid, "SIGTERM");
  };
  process.on("SIGTERM", ended);
  process.on("exit", () => signalGroup("SIGTERM"));
}

/** The group has the kernel's own number where the kernel leads it; elsewhere there is none. */
function signalGroup(signal) {
  if (process.platform === "win32") return;
  try {
    process.kill(-process.pid, signal);
  } catch {
    // Started by hand, in somebody else's group.
  }
}

/** How often to look whether Jupyter still lives. */
const EVERY_MS = 1000;

/**
 * Calls `end` when the process is gone that started the kernel, which Jupyter names in
 * JPY_PARENT_PID. Undefined where nothing names it.
 */
function followJupyter(end) {
  const jupyter = Number(process.env.JPY_PARENT_PID);
  if (process.platform === "win32" || !(Number.isInteger(jupyter) && jupyter > 0)) return undefined;
  const parent = process.ppid;
  const look = () => {
    // A parent that ends leaves its children to another; its number may be given out again.
    if (process.ppid !== parent || !isAlive(jupyter)) end();
  };
  return setInterval(look, EVERY_MS);
}

function isAlive(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === "EPERM";
  }
}

module.exports = { endChildrenAtExit, endGroup, followJupyter };
