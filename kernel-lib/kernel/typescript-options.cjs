"use strict";
const positions = require("./cell-positions.cjs");

/**
 * Changes two functions of the compiler that tslab uses: the compiler host gets source maps
 * (for error lines) and only Node's ambient types (every other `@types` package found upward
 * would be read at each start), and the step to CommonJS keeps the maps.
 */
function changeTypeScript(ts) {
  const createWatchCompilerHost = (files, options, ...rest) =>
    ts.createWatchCompilerHost(files, { ...options, inlineSourceMap: true, types: ["node"] }, ...rest);
  const transpileModule = (source, options) => positions.transpileKeepingPositions(ts, source, options);
  const own = { createWatchCompilerHost, transpileModule };
  return new Proxy(ts, { get: (target, name) => (Object.hasOwn(own, name) ? own[name] : target[name]) });
}

module.exports = { changeTypeScript };
