"use strict";
// What tslab needs of a compiled program, and no more. The compiler's own watch program keeps
// track of which files each change affects; that costs a type checker for every change, two
// for every cell, and tslab uses none of it: it asks for a file, a file's dependencies, and output.

const { emitCommonJs } = require("./common-js-emit.cjs");

/** A maker of programs for `ts.createWatchCompilerHost`. */
function lightProgramMaker(ts) {
  return (rootNames, options, host, old, configFileParsingDiagnostics, projectReferences) => {
    const program =
      rootNames === undefined
        ? old.getProgram()
        : ts.createProgram({ rootNames, options, host, oldProgram: old?.getProgram(), configFileParsingDiagnostics, projectReferences });
    return {
      getProgram: () => program,
      getProgramOrUndefined: () => program,
      getCompilerOptions: () => program.getCompilerOptions(),
      getSourceFile: (name) => boundFile(ts, program, name),
      getAllDependencies: (file) => dependenciesOf(ts, program, file),
      emit: (...given) => emitCommonJs(ts, program, ...given),
    };
  };
}

/** tslab reads a file's names straight after making the program: they are there once it is bound. */
function boundFile(ts, program, name) {
  const file = program.getSourceFile(name);
  if (file && !file.locals) ts.bindSourceFile(file, program.getCompilerOptions());
  return file;
}

/** The file and every file it imports, directly or through others. */
function dependenciesOf(ts, program, start) {
  const found = new Set([start.fileName]);
  const waiting = [start];
  for (let file = waiting.pop(); file; file = waiting.pop()) {
    const imported = (file.imports ?? []).map((name) => ts.getResolvedModule(file, name.text, ts.getModeForUsageLocation(file, name))?.resolvedFileName);
    const referred = (file.referencedFiles ?? []).map(({ fileName }) => ts.resolveTripleslashReference(fileName, file.fileName));
    for (const name of [...imported, ...referred]) {
      const next = name === undefined ? undefined : program.getSourceFile(name);
      if (!next || found.has(next.fileName)) continue;
      found.add(next.fileName);
      waiting.push(next);
    }
  }
  return [...found];
}

module.exports = { lightProgramMaker };
