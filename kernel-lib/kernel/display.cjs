"use strict";
// What a cell shows: MIME bundles. A value whose method under DISPLAY returns a bundle is
// shown as that bundle; every other value as text.
const { inspect } = require("node:util");
const { frameBundle, isFrame } = require("./frame-display.cjs");

const { startedByRunner } = require("./interrupt.cjs");

const DISPLAY = Symbol.for("code-comparison.display");
const METADATA = Symbol.for("code-comparison.output-metadata");
const SHOW = Symbol.for("code-comparison.show");
/** Set by the library when it is loaded: the bundle of its own plain data, such as a figure. */
const PLAIN_DATA = Symbol.for("code-comparison.plain-data");

/**
 * What an output says of its run beside what it shows, for values that know it, such as the
 * colophon of a study. Our own runner writes that into the notebook itself.
 */
async function metadataOf(method) {
  return startedByRunner || typeof method !== "function" ? {} : await method();
}

/** The MIME bundle of a cell's last value; undefined when there is nothing to show. */
async function bundleOf(value) {
  if (value === undefined || value === null) return undefined;
  const method = value[DISPLAY];
  const bundle =
    typeof method === "function" ? await method.call(value) : await globalThis[PLAIN_DATA]?.(value);
  if (bundle && typeof bundle === "object") return readyForJson(bundle);
  if (isFrame(value)) return frameBundle(value);
  return { "text/plain": asText(value) };
}

function asText(value) {
  return typeof value === "string"
    ? value
    : inspect(value, { depth: 4, colors: false, breakLength: 100 });
}

/** Bytes become base64, as Jupyter wants them; nothing else is touched. */
function readyForJson(bundle) {
  const ready = {};
  for (const [type, data] of Object.entries(bundle)) {
    if (data === undefined) continue;
    ready[type] =
      data instanceof Uint8Array
        ? Buffer.from(data.buffer, data.byteOffset, data.byteLength).toString("base64")
        : data;
  }
  return ready;
}

module.exports = { METADATA, SHOW, bundleOf, metadataOf, readyForJson };
