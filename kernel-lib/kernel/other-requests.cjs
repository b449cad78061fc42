"use strict";
// Messages of the protocol that tslab does not know. It prints a warning into the last cell and
// leaves the sender waiting; here each is answered, or refused in words.
const { historyReply } = require("./history.cjs");

const DELIMITER = "<IDS|MSG>";
/** Told by the client; nothing is to be answered. */
const UNANSWERED = new Set(["comm_msg", "comm_close", "input_reply"]);

/** What tslab answers itself. */
const KNOWN = new Set(
  ["kernel_info", "execute", "is_complete", "inspect", "complete", "comm_info", "shutdown"].map(
    (name) => `${name}_request`,
  ),
);

function changeOtherRequests(ZmqServer) {
  const handleShellMessage = ZmqServer.prototype.handleShellMessage;
  ZmqServer.prototype.handleShellMessage = function (socket, ...frames) {
    this.arrivedOn = socket;
    const type = typeOf(frames);
    // A message that cannot be read or is signed with another key is nobody's: it is dropped.
    const handled = () => handleShellMessage.call(this, socket, ...frames).catch(() => undefined);
    return type === undefined || KNOWN.has(type) ? handled() : unwarned(handled);
  };
  const publishStatus = ZmqServer.prototype.publishStatus;
  ZmqServer.prototype.publishStatus = function (status, message) {
    publishStatus.call(this, status, message);
    if (status === "busy" && !KNOWN.has(message.header.msg_type)) answerOther(this, message);
  };
}

function typeOf(frames) {
  try {
    const at = frames.findIndex((frame) => frame.toString() === DELIMITER);
    return JSON.parse(frames[at + 2].toString()).msg_type;
  } catch {
    return undefined;
  }
}

function unwarned(work) {
  const { warn } = console;
  console.warn = () => undefined;
  try {
    return work();
  } finally {
    console.warn = warn;
  }
}

function answerOther(server, message) {
  const type = message.header.msg_type;
  if (UNANSWERED.has(type)) return;
  if (type === "comm_open") {
    // No kernel code takes part in widgets: the protocol says to close what was opened.
    const { comm_id: id } = message.content;
    send(server, message, server.iopub, "comm_close", { comm_id: id, data: {} });
    return;
  }
  send(server, message, server.arrivedOn, replyType(type), contentFor(server, type, message));
}

function replyType(type) {
  return `${String(type).replace(/_request$/, "")}_reply`;
}

function contentFor(server, type, { content }) {
  switch (type) {
    case "history_request":
      return historyReply(content);
    case "interrupt_request":
      server.handler.executor.interrupt();
      return { status: "ok" };
    case "connect_request": {
      const ports = Object.entries(server.connInfo).filter(([name]) => name.endsWith("_port"));
      return { status: "ok", ...Object.fromEntries(ports) };
    }
    default:
      return refusal("NotSupported", `this kernel does not answer ${type}`);
  }
}

/** Content of a reply that refuses a request. */
function refusal(ename, evalue) {
  return { status: "error", ename, evalue, traceback: [] };
}

function send(server, message, socket, type, content) {
  const reply = message.createReply();
  reply.header.msg_type = type;
  reply.content = content;
  reply.signAndSend(server.connInfo.key, socket);
}

/**
 * Nobody can type into a cell: `input_request` is never sent, and a program that asks would wait
 * for ever.
 */
function refuseTypedInput() {
  Object.defineProperty(process, "stdin", {
    configurable: true,
    get() {
      const error = new Error(
        "a notebook takes no typed input: give the value a name in the cell tagged parameters",
      );
      error.name = "NoTypedInput";
      throw error;
    },
  });
}

module.exports = { changeOtherRequests, refusal, refuseTypedInput };
