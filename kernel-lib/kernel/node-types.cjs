"use strict";
// Node's own declarations: seventy files, nearly half of what the compiler reads at each start of
// a kernel. They are made lighter, and read as one file: every file would have to be looked for,
// watched, and have its imports resolved.
const path = require("node:path");

const NODE_FILE = /[\\/]@types[\\/]node[\\/].*\.d\.ts$/;
const ROOT = /[\\/]index\.d\.ts$/;
/** Modules of no use in a notebook, and four tenths of the text. Imported they are of any type. */
const SELDOM_USED =
  /[\\/]node[\\/](cluster|dgram|diagnostics_channel|dns|dns[\\/]promises|domain|http|http2|https|inspector\.generated|net|repl|sea|test|tls|trace_events|v8|vm|wasi)\.d\.ts$/;
const DECLARED_MODULE = /^declare module ["'][^"']+["']/gm;
/** `fetch` and what goes with it rests on a package of forty files. They are of any type, too. */
const NETWORK_GLOBALS = /[\\/]node[\\/]web-globals[\\/]fetch\.d\.ts$/;
const FROM_NETWORK_PACKAGE = /^ *import \{([\w, ]+)\} from "undici-types";$/gm;
/**
 * Their reading takes a third of the kernel's start; hovering over Node's functions shows types,
 * without the prose.
 */
const DOC_COMMENT = /\/\*\*[\s\S]*?\*\//g;
const REFERENCE = /^\/\/\/ *<reference path="([^"]+)" *\/>$/gm;
const IS_MODULE = /^(import|export) /m;

/**
 * A reader of files that gives Node's declarations lighter, and all that one file may hold as the
 * text of their root.
 *
 * @param read reads a file
 */
function readNodeTypesLighter(read) {
  return (file, encoding) => {
    const text = read(file, encoding);
    if (text === undefined || !NODE_FILE.test(file)) return text;
    return ROOT.test(file)
      ? together(file, text, (name) => read(name, encoding))
      : lighter(file, text);
  };
}

/** The root with the texts of the files it refers to; a file with names of its own stays a file. */
function together(root, text, read) {
  const parts = [];
  const head = text.replace(REFERENCE, (reference, name) => {
    const file = path.posix.join(path.posix.dirname(root.replace(/\\/g, "/")), name);
    const part = lighter(file, read(file) ?? "");
    // Whatever is not as expected is left to the compiler.
    if (part === "" || IS_MODULE.test(part) || part.includes("<reference ")) return reference;
    parts.push(part);
    return "";
  });
  return [head, ...parts].join("\n");
}

function lighter(file, text) {
  if (SELDOM_USED.test(file)) return (text.match(DECLARED_MODULE) ?? []).join(";\n");
  if (NETWORK_GLOBALS.test(file)) return ofAnyType(text);
  return text.replace(DOC_COMMENT, "").replace(FROM_NETWORK_PACKAGE, (_, names) =>
    names
      .split(",")
      .map((name) => `type ${name.trim()} = any;`)
      .join(" "),
  );
}

/** The global types and values that a file declares. */
function ofAnyType(text) {
  const types = [...text.matchAll(/^ {4}interface (\w+)/gm)].map(
    ([, name]) => `type ${name} = any;`,
  );
  const values = [...text.matchAll(/^ {4}(?:var|function) (\w+)/gm)].map(
    ([, name]) => `declare var ${name}: any;`,
  );
  return [...types, ...values].join("\n");
}

module.exports = { readNodeTypesLighter };
