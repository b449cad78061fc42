"use strict";
// The compiler that tslab loads is one file of 8 MB. V8's compiled form of it is kept beside
// the library, so that the next kernel need not compile it again.
const { createHash } = require("node:crypto");
const fs = require("node:fs");
const Module = require("node:module");
const path = require("node:path");
const v8 = require("node:v8");
const vm = require("node:vm");

const COMPILER = /[\\/]typescript-for-tslab[\\/]lib[\\/]typescript\.js$/;
const FOLDER = path.join(__dirname, "..", ".cache");

/** Loads the compiler through the cache. Whatever goes wrong with the cache, the compiler loads. */
function keepCompiledCompiler() {
  const load = Module._extensions[".js"];
  Module._extensions[".js"] = function (module, file) {
    if (!COMPILER.test(file)) return load.call(this, module, file);
    const source = oneByteText(fs.readFileSync(file));
    const cacheFile = path.join(FOLDER, `compiler-${cacheKey(source)}.bin`);
    const cachedData = readIfThere(cacheFile);
    const script = new vm.Script(Module.wrap(source), { filename: file, cachedData });
    const run = script.runInThisContext();
    run.call(
      module.exports,
      module.exports,
      module.require.bind(module),
      module,
      file,
      path.dirname(file),
    );
    // At the end of the first kernel, so that functions compiled by then are in it.
    if (!cachedData || script.cachedDataRejected)
      process.once("exit", () => write(cacheFile, script));
    return undefined;
  };
}

/**
 * The text of a program with every character beyond ASCII written as an escape. The compiler has
 * four, in comments; for their sake V8 would keep all of its text, as long as the kernel lives, in
 * two bytes a character: 8 MB more.
 */
function oneByteText(bytes) {
  const escaped = (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`;
  return bytes
    .latin1Slice()
    .replace(/[\x80-\xff]+/g, (encoded) =>
      Buffer.from(encoded, "latin1").toString().split("").map(escaped).join(""),
    );
}

/** V8 refuses a cache made by another version or with other flags; the key spares the attempt. */
function cacheKey(source) {
  return createHash("sha256")
    .update(
      `${v8.cachedDataVersionTag()} ${process.arch} ${source.length} ${source.slice(0, 2000)}`,
    )
    .digest("hex")
    .slice(0, 16);
}

function readIfThere(file) {
  try {
    return fs.readFileSync(file);
  } catch {
    return undefined;
  }
}

function write(file, script) {
  try {
    fs.mkdirSync(FOLDER, { recursive: true });
    const fresh = `${file}.${process.pid}`;
    fs.writeFileSync(fresh, script.createCachedData());
    fs.renameSync(fresh, file);
  } catch {
    // A read-only installation works without the cache.
  }
}

module.exports = { keepCompiledCompiler };
