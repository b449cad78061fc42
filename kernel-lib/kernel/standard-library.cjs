"use strict";
// The declarations of the language's own library lie in some fifty files, in which Array, Promise
// and their like are declared again and again. The type checker of every cell would merge those
// declarations anew. Read as one file, they are merged once, when the file is read.
const path = require("node:path");

const LIBRARY_FILE = /[\\/]typescript-for-tslab[\\/]lib[\\/](lib\.[\w.]+\.d\.ts)$/;
const REFERENCE = /^\/\/\/ *<reference .*$/gm;

/**
 * A reader of files that gives the whole library as the text of `root` (such as lib.es2022.d.ts),
 * and nothing as the text of the files that are in it.
 *
 * @param read reads a file
 */
function readLibraryAsOne(ts, root, read) {
  let parts;
  return (file, encoding) => {
    const name = LIBRARY_FILE.exec(file)?.[1];
    if (name === undefined) return read(file, encoding);
    parts ??= collect(ts, path.dirname(file), root, read);
    if (name === root) return together(ts, parts);
    return parts.has(name) ? "" : read(file, encoding);
  };
}

/** The texts of the root and of every library file it refers to, by name. */
function collect(ts, folder, root, read) {
  const found = new Map();
  const visit = (name) => {
    if (found.has(name)) return;
    const text = read(path.posix.join(folder.replace(/\\/g, "/"), name)) ?? "";
    found.set(name, text);
    for (const { fileName } of ts.preProcessFile(text, false).libReferenceDirectives)
      visit(ts.libMap.get(fileName.toLowerCase()) ?? `lib.${fileName}.d.ts`);
  };
  visit(root);
  return found;
}

/** In the compiler's own order, on which the order of overloads rests. */
function together(ts, parts) {
  const place = (name) => ts.libs.indexOf(name.slice("lib.".length, -".d.ts".length));
  const names = [...parts.keys()].sort((a, b) => place(a) - place(b));
  return [
    '/// <reference no-default-lib="true"/>',
    ...names.map((name) => parts.get(name).replace(REFERENCE, "")),
  ].join("\n");
}

module.exports = { readLibraryAsOne };
