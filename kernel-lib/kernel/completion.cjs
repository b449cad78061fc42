"use strict";
// What completion offers. tslab offers everything where the cursor stands between quotes, whatever
// was typed, and puts it behind what was typed; and it offers nothing for the names of an import.
const { createRequire } = require("node:module");
const { join } = require("node:path");
const {
  charactersBefore,
  holdsCondition,
  importAt,
  namesModule,
  quotedAt,
  unitsBefore,
} = require("./cell-places.cjs");

/** Reply to a request for completion. */
function completionReply(executor, { code, cursor_pos: position }) {
  const { start, end, candidates } = completion(executor, code, unitsBefore(code, position));
  return {
    cursor_start: charactersBefore(code, start),
    cursor_end: charactersBefore(code, end),
    matches: candidates,
    metadata: {},
    status: "ok",
  };
}

function completion(executor, code, position) {
  const imported = importAt(code, position);
  if (imported) return matching(imported, importable(executor, imported.module), imported.typed);
  const quoted = quotedAt(code, position);
  if (!quoted) return executor.complete(code, position);
  const typed = code.slice(quoted.start, position);
  if (holdsCondition(quoted.node)) return inCondition(typed, position);
  const known = namesModule(quoted.node) ? modules() : executor.complete(code, position).candidates;
  return matching(quoted, known, typed);
}

/** Names that begin with what was typed come first, then those that hold it. */
function matching({ start, end }, known, typed) {
  const asked = typed.toLowerCase();
  const first = known.filter((name) => name.toLowerCase().startsWith(asked));
  const further = known.filter((name) => name.toLowerCase().indexOf(asked) > 0);
  return { start, end, candidates: [...first, ...further] };
}

/** Set by the library: the columns of a condition, or the values of one. */
const CONDITION = Symbol.for("code-comparison.condition-names");

/** In a condition only the word that is being typed is replaced. */
function inCondition(typed, position) {
  const { word, names } = globalThis[CONDITION]?.(typed) ?? { word: "", names: [] };
  return matching({ start: position - word.length, end: position }, names, word);
}

/** Values, as the module has them, then types, as the compiler knows them. */
function importable(executor, module) {
  const values = namesOf(module);
  const typePlace = `let known: import(${JSON.stringify(module)}).`;
  const { candidates } = executor.complete(typePlace, typePlace.length);
  return [...new Set([...values, ...candidates])];
}

/** Looked for from the notebook's folder, as the cell's own import is. */
function fromNotebook() {
  return createRequire(join(process.cwd(), "cell.js"));
}

function namesOf(module) {
  try {
    return Object.keys(fromNotebook()(module)).sort();
  } catch {
    return [];
  }
}

function modules() {
  try {
    const { name, exports } = fromNotebook()("kernel-lib/package.json");
    return Object.keys(exports)
      .filter((path) => !path.endsWith(".json"))
      .map((path) => join(name, path).replaceAll("\\", "/"));
  } catch {
    return [];
  }
}

module.exports = { completionReply };
