"use strict";
const positions = require("./cell-positions.cjs");
const { lightProgramMaker } = require("./light-program.cjs");
const { readLibraryAsOne } = require("./standard-library.cjs");

const NODE_TYPES = /[\\/]@types[\\/]node[\\/].*\.d\.ts$/;
/** Modules of no use in a notebook, and a quarter of the text: 7 MB once read. Imported they are of any type. */
const SELDOM_USED = /[\\/]node[\\/](http2|inspector\.generated|test)\.d\.ts$/;
const DECLARED_MODULE = /^declare module ["'][^"']+["']/gm;
const DOC_COMMENT = /\/\*\*[\s\S]*?\*\//g;

/**
 * Changes three functions of the compiler that tslab uses.
 *
 * The compiler host: source maps, for the lines of errors; only Node's ambient types, as every
 * other `@types` package found upward would be read at each start; and Node's types without
 * their comments, whose reading takes a third of the kernel's start (hovering over Node's own
 * functions shows their types, without the prose), and three of its modules as of any type; the
 * language's own library as one file; and a lighter kind of program.
 *
 * The watch: says when its bookkeeping is done (see light-program.cjs).
 *
 * The step to CommonJS: is taken while the compiler emits, and keeps the source maps.
 */
function changeTypeScript(ts) {
  const createWatchCompilerHost = (files, options, sys, _maker, ...rest) => {
    const readFile = sys.readFile;
    sys.readFile = readLibraryAsOne(ts, options.lib[0], (file, encoding) => {
      const text = readFile.call(sys, file, encoding);
      if (text === undefined || !NODE_TYPES.test(file)) return text;
      return SELDOM_USED.test(file) ? text.match(DECLARED_MODULE).join(";\n") : text.replace(DOC_COMMENT, "");
    });
    return ts.createWatchCompilerHost(files, { ...options, inlineSourceMap: true, types: ["node"] }, sys, lightProgramMaker(ts), ...rest);
  };
  const createWatchProgram = (host) => {
    const { afterProgramCreate } = host;
    host.afterProgramCreate = (program) => {
      program.settle();
      afterProgramCreate(program);
    };
    return ts.createWatchProgram(host);
  };
  const transpileModule = (source, options) => positions.convertKeepingPositions(ts, source, options);
  // A copy and no proxy: tslab asks for the compiler's functions at every node of a cell.
  return { ...ts, createWatchCompilerHost, createWatchProgram, transpileModule };
}

module.exports = { changeTypeScript };
