"use strict";
// Printed text, gathered into fewer messages. One message a line costs a signature and a send
// each; a cell that prints 20,000 lines in a loop would flood the client.
const { own } = require("./timers.cjs");

const SOONEST_MS = 50;
const MOST_CHARACTERS = 65_536;

/** Gathers text by stream name and passes it on through `publish(name, text)`. */
function gatherText(publish) {
  let name;
  let parts = [];
  let length = 0;
  let since = 0;
  let timer;

  function flush() {
    own.clearTimeout(timer);
    timer = undefined;
    if (parts.length === 0) return;
    const text = parts.join("");
    parts = [];
    length = 0;
    publish(name, text);
  }

  function write(stream, text) {
    if (stream !== name) flush();
    if (parts.length === 0) since = Date.now();
    name = stream;
    parts.push(text);
    length += text.length;
    // A loop without a pause never lets the timer run: look at the clock as well.
    if (length >= MOST_CHARACTERS || Date.now() - since >= SOONEST_MS) flush();
    else timer ??= own.setTimeout(flush, SOONEST_MS).unref();
  }

  return { write, flush };
}

module.exports = { gatherText };
