"use strict";
// tslab compiles a cell to a module and then, by a second and complete compilation of that text,
// to CommonJS. The second step takes as long as the first. The compiler can do both at once: its
// own step to CommonJS follows tslab's last changes, and tslab's second compilation finds the
// work done.

/**
 * What the compiler gave out as CommonJS and tslab has not asked to be converted yet, with its
 * source map.
 */
const converted = new Map();
const CELL_FILE = /[\\/]__tslab__\.[jt]s$/;
const MAP_COMMENT = /\n?\/\/# sourceMappingURL=data:application\/json;base64,(\S+)\s*$/;

/** Emits a file of a program as CommonJS, after the changes tslab asks for. */
function emitCommonJs(ts, program, file, write, cancellation, emitOnly, customTransformers) {
  const toCommonJs = (context) => {
    const options = { ...context.getCompilerOptions(), module: ts.ModuleKind.CommonJS };
    return ts.transformModule(
      Object.create(context, { getCompilerOptions: { value: () => options } }),
    );
  };
  const writeAndKeep = (name, text, ...rest) => {
    if (!name.endsWith(".js")) return write(name, text, ...rest);
    const comment = MAP_COMMENT.exec(text);
    const code = comment ? text.slice(0, comment.index) : text;
    converted.set(code, comment ? Buffer.from(comment[1], "base64").toString() : undefined);
    return write(name, code, ...rest);
  };
  return program.emit(file, writeAndKeep, cancellation, emitOnly, {
    ...customTransformers,
    after: [...(customTransformers?.after ?? []), awaitsOfCell(ts), toCommonJs],
  });
}

/**
 * In a cell `await x` becomes `await __tslab__.live(x)`, and likewise for `for await`: after an
 * interrupt neither goes on, whatever it waited for.
 */
function awaitsOfCell(ts) {
  const { factory } = ts;
  const through = (name, expression) =>
    factory.createCallExpression(
      factory.createPropertyAccessExpression(factory.createIdentifier("__tslab__"), name),
      undefined,
      [expression],
    );
  return (context) => (file) => {
    if (!CELL_FILE.test(file.fileName)) return file;
    const visit = (node) => {
      const inner = ts.visitEachChild(node, visit, context);
      if (ts.isAwaitExpression(inner))
        return factory.updateAwaitExpression(inner, through("live", inner.expression));
      if (ts.isForOfStatement(inner) && inner.awaitModifier)
        return factory.updateForOfStatement(
          inner,
          inner.awaitModifier,
          inner.initializer,
          through("liveEach", inner.expression),
          inner.statement,
        );
      return inner;
    };
    return ts.visitNode(file, visit);
  };
}

/** Whether the text came from `emitCommonJs`, and its source map. */
function takeConverted(code) {
  if (!converted.has(code)) return undefined;
  const sourceMap = converted.get(code);
  converted.delete(code);
  return { sourceMap };
}

module.exports = { emitCommonJs, takeConverted };
