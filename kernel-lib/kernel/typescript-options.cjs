"use strict";
const positions = require("./cell-positions.cjs");
const { lightProgramMaker } = require("./light-program.cjs");
const { readNodeTypesLighter } = require("./node-types.cjs");
const { readLibraryAsOne } = require("./standard-library.cjs");

/**
 * Changes three functions of the compiler that tslab uses.
 *
 * The compiler host: source maps, for the lines of errors; only Node's ambient types, as every
 * other `@types` package found upward would be read at each start; Node's types lighter and as one
 * file, and the language's own library as one file; and a lighter kind of program.
 *
 * The watch: says when its bookkeeping is done (see light-program.cjs).
 *
 * The step to CommonJS: is taken while the compiler emits, and keeps the source maps.
 */
function changeTypeScript(ts) {
  const createWatchCompilerHost = (files, options, sys, _maker, ...rest) => {
    sys.readFile = readLibraryAsOne(
      ts,
      options.lib[0],
      readNodeTypesLighter(sys.readFile.bind(sys)),
    );
    return ts.createWatchCompilerHost(
      files,
      { ...options, inlineSourceMap: true, types: ["node"] },
      sys,
      lightProgramMaker(ts),
      ...rest,
    );
  };
  const createWatchProgram = (host) => {
    const { afterProgramCreate } = host;
    host.afterProgramCreate = (program) => {
      program.settle();
      afterProgramCreate(program);
    };
    return ts.createWatchProgram(host);
  };
  const transpileModule = (source, options) =>
    positions.convertKeepingPositions(ts, source, options);
  // A copy and no proxy: tslab asks for the compiler's functions at every node of a cell.
  return { ...ts, createWatchCompilerHost, createWatchProgram, transpileModule };
}

module.exports = { changeTypeScript };
