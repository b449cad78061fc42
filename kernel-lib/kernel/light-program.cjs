"use strict";
// What tslab needs of a compiled program, and no more. The compiler's own watch program keeps
// track of which files each change affects; that costs a type checker for every change, two
// for every cell, and tslab uses none of it: it asks for a file, a file's dependencies, and output.

const { emitCommonJs } = require("./common-js-emit.cjs");

/** The cell, and the declarations of all cells before it. */
const CELL_FILES = /[\\/](__tslab__\.[jt]s|__prev__\.d\.ts)$/;

/**
 * A maker of programs for `ts.createWatchCompilerHost`.
 *
 * For every cell tslab makes two programs: one to learn the cell's names, and one of the cell with
 * an `export` of those names at its end. For the names no program is needed, only the parsed cell.
 * So a program is made when something is asked for that it alone can tell; the compiler's own
 * bookkeeping, which comes before (`settle` ends it), makes do with the program before it.
 */
function lightProgramMaker(ts) {
  return (rootNames, options, host, old, configFileParsingDiagnostics, projectReferences) => {
    let before = old?.getProgramOrUndefined();
    const sameRoots =
      before !== undefined && rootNames?.join() === before.getRootFileNames().join();
    // What has to be looked up again counts until a program has really been made.
    const invalidated = [...(old?.invalidated() ?? []), host.hasInvalidatedResolutions];
    let made = rootNames === undefined ? old.getProgram() : undefined;
    let settled = !sameRoots;
    const program = () => {
      if (made) return made;
      host.hasInvalidatedResolutions = (path) => invalidated.some((has) => has(path));
      made = ts.createProgram({
        rootNames,
        options,
        host,
        oldProgram: before,
        configFileParsingDiagnostics,
        projectReferences,
      });
      // Held any longer, the program before would keep its type checker in memory.
      before = undefined;
      return made;
    };
    const parsed = (name) =>
      !made && sameRoots && CELL_FILES.test(name)
        ? host.getSourceFile(name, options.target)
        : program().getSourceFile(name);
    return {
      settle: () => void (settled = true),
      invalidated: () => (made ? [] : invalidated),
      getProgram: () => (settled ? program() : before),
      getProgramOrUndefined: () => made ?? before,
      getCompilerOptions: () => options,
      getSourceFile: (name) => bound(ts, parsed(name), options),
      getAllDependencies: (file) => dependenciesOf(ts, program(), file),
      emit: (...given) => emitCommonJs(ts, program(), ...given),
    };
  };
}

/**
 * tslab reads a file's names straight after making the program: they are there once it is bound.
 */
function bound(ts, file, options) {
  if (file && !file.locals) ts.bindSourceFile(file, options);
  return file;
}

/** The file and every file it imports, directly or through others. */
function dependenciesOf(ts, program, start) {
  const found = new Set([start.fileName]);
  const waiting = [start];
  for (let file = waiting.pop(); file; file = waiting.pop()) {
    const imported = (file.imports ?? []).map(
      (name) =>
        ts.getResolvedModule(file, name.text, ts.getModeForUsageLocation(file, name))
          ?.resolvedFileName,
    );
    const referred = (file.referencedFiles ?? []).map(({ fileName }) =>
      ts.resolveTripleslashReference(fileName, file.fileName),
    );
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
