"use strict";
// Loaded by `node --require` before tslab's kernel starts. It changes, inside that process and
// nowhere on disk, what tslab leaves open: lost messages, results and errors as plain text,
// one MIME type per display. Each change has its file; this one only puts them in place.
const Module = require("node:module");

const changes = new Map([
  ["zeromq", require("./message-loss.cjs").changeZeromq],
  ["@tslab/typescript-for-tslab", require("./typescript-options.cjs").changeTypeScript],
  ["./executor", require("./cell-execution.cjs").changeExecutor],
  ["./jupyter", require("./jupyter-messages.cjs").changeJupyter],
]);
const changed = new WeakMap();
const load = Module._load;

Module._load = function (request, parent, ...rest) {
  const loaded = load.call(this, request, parent, ...rest);
  const change = changes.get(request);
  if (!change || !/[\\/]tslab[\\/]dist[\\/]/.test(parent?.filename ?? "")) return loaded;
  if (!changed.has(loaded)) changed.set(loaded, change(loaded));
  return changed.get(loaded);
};

require("./compile-cache.cjs").keepCompiledCompiler();
require("./heap-growth.cjs").holdHeapGrowth();
require("./timers.cjs").watchTimers();
