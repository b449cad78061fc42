"use strict";
// A client that ends a run waits for what cells left behind.
const { own } = require("./timers.cjs");

/**
 * There are no comms. Asked for the name "code-comparison.settle", answers only when no timer
 * that a cell started is left: a client that ends a run must hear late errors first.
 */
async function answerCommInfo(server, socket, message, flush) {
  const reply = message.createReply();
  reply.header.msg_type = "comm_info_reply";
  reply.content = { status: "ok", comms: {} };
  if (message.content.target_name === "code-comparison.settle") {
    const until = Date.now() + Number(message.content.limit_ms);
    while (Date.now() < until && timersLeft() > 0) await turnOfEventLoop();
    flush();
  }
  reply.signAndSend(server.connInfo.key, socket);
}

/** An unreferenced timer is in no list of what keeps the process alive. */
function turnOfEventLoop() {
  return new Promise((turned) => own.setTimeout(turned, 5).unref());
}

function timersLeft() {
  return process.getActiveResourcesInfo().filter((kind) => kind === "Timeout").length;
}

module.exports = { answerCommInfo };
