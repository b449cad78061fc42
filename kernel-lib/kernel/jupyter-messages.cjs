"use strict";
// The messages around a cell: execute_input, stream, display_data, execute_result, error, and
// the reply. Takes the place of tslab's own, which know neither results nor errors.
const { StringDecoder } = require("node:string_decoder");
const { inspect } = require("node:util");
const { noteUnhandled } = require("./cell-execution.cjs");
const { METADATA, SHOW, bundleOf, metadataOf, readyForJson } = require("./display.cjs");
const { reportThrown } = require("./error-report.cjs");
const { isCompleteReply } = require("./complete-code.cjs");
const { completionReply } = require("./completion.cjs");
const { remember } = require("./history.cjs");
const { hoverReply } = require("./hover.cjs");
const { watchInterrupts } = require("./interrupt.cjs");
const { changeOtherRequests, refusal, refuseTypedInput } = require("./other-requests.cjs");
const { receiveOnceBound } = require("./message-loss.cjs");
const { endChildrenAtExit } = require("./process-group.cjs");
const { gatherText } = require("./printed-text.cjs");
const { own } = require("./timers.cjs");

/**
 * After a failed cell, requests that were sent before it failed are refused, if they come within so
 * long.
 */
const ABORT_WINDOW_MS = 200;
/** Time for the last replies to leave. */
const SHUTDOWN_MS = 200;
const LANGUAGE_VERSION = "5.0.4";

/** The cell whose output channel is in use: the running one, or the last that ran. */
let channel;

function changeJupyter(jupyter) {
  const { ZmqServer, JupyterHandlerImpl } = jupyter;
  const init = ZmqServer.prototype.init;
  ZmqServer.prototype.init = function () {
    watchLateErrors();
    void watchInterrupts();
    // `process.exit` in a cell: what it printed just before must not be lost.
    process.once("exit", () => channel?.flush());
    globalThis[SHOW] = show;
    refuseTypedInput();
    endChildrenAtExit();
    return receiveOnceBound(init.call(this));
  };
  ZmqServer.prototype.handleExecute = function (socket, message) {
    return answerExecute(jupyter, this, socket, message);
  };
  ZmqServer.prototype.handleCommInfoRequest = function (socket, message) {
    return answerCommInfo(this, socket, message);
  };
  const close = ZmqServer.prototype.close;
  ZmqServer.prototype.close = function () {
    close.call(this);
    // A child or a timer of a cell would keep the process alive.
    own.setTimeout(() => process.exit(0), SHUTDOWN_MS).unref();
  };
  changeOtherRequests(ZmqServer);
  const answers = {
    handleInspect: (handler, request) => hoverReply(handler.executor, request),
    handleComplete: (handler, request) => completionReply(handler.executor, request),
    handleIsComplete: (_handler, request) => isCompleteReply(request),
    handleShutdown: (_handler, { restart }) => ({ status: "ok", restart: restart === true }),
  };
  for (const [name, answer] of Object.entries(answers))
    JupyterHandlerImpl.prototype[name] = function (request) {
      if (name !== "handleShutdown" && typeof request.code !== "string")
        return refusal("NoCode", "the request holds no code");
      return orRefusal(() => answer(this, request));
    };
  const handleKernel = JupyterHandlerImpl.prototype.handleKernel;
  JupyterHandlerImpl.prototype.handleKernel = function () {
    return kernelInfo(handleKernel.call(this));
  };
  return jupyter;
}

/** A request that lacks what the protocol asks for is refused, not left without an answer. */
function orRefusal(answer) {
  try {
    return answer();
  } catch (error) {
    return refusal(String(error?.name ?? "Error"), String(error?.message ?? error));
  }
}

/** Cells run one after the other; after a failure those already waiting are refused. */
let tail = Promise.resolve();
let failedAt = 0;

async function answerExecute(jupyter, server, socket, message) {
  const reply = message.createReply();
  reply.header.msg_type = "execute_reply";
  const turn = tail.then(async () => {
    if (wasSentBeforeFailure(message)) return { status: "aborted" };
    const content = await runOneCell(jupyter, server, message);
    const stops = message.content.stop_on_error !== false && content.status === "error";
    failedAt = stops ? Date.now() : 0;
    return content;
  });
  tail = turn.catch(() => undefined);
  reply.content = await turn;
  reply.signAndSend(server.connInfo.key, socket);
}

/** Sent along with the failed cell ("run all"), not by someone who has seen it fail. */
function wasSentBeforeFailure(message) {
  return Date.now() < failedAt + ABORT_WINDOW_MS && Date.parse(message.header.date) < failedAt;
}

async function runOneCell(jupyter, server, message) {
  const { code, silent = false, store_history = true, user_expressions } = message.content;
  const handler = server.handler;
  if (!silent && store_history) handler.execCount += 1;
  const count = handler.execCount;
  const publish = (type, content) => {
    const output = message.createReply();
    output.header.msg_type = type;
    output.content = content;
    output.signAndSend(server.connInfo.key, server.iopub);
  };
  const keepShown = silent || !store_history ? undefined : remember(count, code);
  if (!silent) publish("execute_input", { code, execution_count: count });
  const text = gatherText((name, printed) => publish("stream", { name, text: printed }));
  const publishInOrder = (type, content) => {
    text.flush();
    publish(type, content);
  };
  channel = { publish: publishInOrder, flush: text.flush };
  catchPrinted(text);
  jupyter.lastWriteDisplayData = (data, update) =>
    publishInOrder(update ? "update_display_data" : "display_data", data);

  const outcome = await handler.executor.runCell(code, `cell [${count}]`);
  let error = outcome.error;
  if (!error)
    error = await publishResult(outcome, count, (type, content) => {
      keepShown?.(content.data["text/plain"]);
      if (!silent) publishInOrder(type, content);
    });
  text.flush();
  if (!error)
    return {
      status: "ok",
      execution_count: count,
      payload: [],
      user_expressions: notEvaluated(user_expressions),
    };
  publish("error", error);
  return { status: "error", execution_count: count, ...error };
}

/** Each is refused in its own place: a cell shows its value in an output instead. */
function notEvaluated(expressions) {
  const names = Object.keys(expressions ?? {});
  return Object.fromEntries(
    names.map((name) => [name, refusal("NotSupported", "user expressions are not evaluated")]),
  );
}

/** Set by the library: the path that it has just printed, which needs no showing again. */
const TOLD = Symbol.for("code-comparison.told");

function takeTold() {
  const told = globalThis[TOLD];
  globalThis[TOLD] = undefined;
  return told;
}

/** Shows the last value. Returns the error of a display method that failed. */
async function publishResult(outcome, count, publish) {
  for (const { file, line, column, text } of outcome.warnings ?? []) {
    console.error(`${file ?? "module"}, line ${line}, column ${column}: ${text}`);
  }
  try {
    const data = outcome.value === takeTold() ? undefined : await bundleOf(outcome.value);
    const metadata = await metadataOf(outcome.value?.[METADATA]?.bind(outcome.value));
    if (data) publish("execute_result", { data, metadata, execution_count: count });
    return undefined;
  } catch (error) {
    return reportThrown(error);
  }
}

/** Prints of the cell, and of timers it left behind, go to its output channel. */
function catchPrinted(text) {
  for (const name of ["stdout", "stderr"]) {
    const decoder = new StringDecoder("utf8");
    process[name].write = (chunk, encoding, done) => {
      text.write(name, typeof chunk === "string" ? chunk : decoder.write(Buffer.from(chunk)));
      const callback = typeof encoding === "function" ? encoding : done;
      if (typeof callback === "function") process.nextTick(callback);
      return true;
    };
  }
}

/** Shows a MIME bundle, or a promise of one, at this point of the cell. */
function show(bundle, metadata) {
  if (bundle instanceof Promise) return bundle.then((made) => show(made, metadata));
  if (typeof metadata === "function")
    return metadataOf(metadata).then((known) => show(bundle, known));
  if (!channel) throw new Error("show: no cell is running");
  channel.publish("display_data", {
    data: readyForJson(bundle),
    metadata: metadata ?? {},
    transient: {},
  });
  return undefined;
}

/** tslab only prints these; a client must be able to tell that something failed. */
function watchLateErrors() {
  process.removeAllListeners("uncaughtException").removeAllListeners("unhandledRejection");
  process.on("unhandledRejection", (reason) => late(reason, "UnhandledRejection"));
  process.on("uncaughtException", (reason) => late(reason, "UncaughtException"));
}

function late(reason, ename) {
  if (noteUnhandled(reason)) return;
  if (channel) channel.publish("error", reportThrown(reason, ename));
  else process.stderr.write(`${ename}: ${inspect(reason)}\n`);
}

/**
 * There are no comms. Asked for the name "code-comparison.settle", answers only when no timer
 * that a cell started is left: a client that ends a run must hear late errors first.
 */
async function answerCommInfo(server, socket, message) {
  const reply = message.createReply();
  reply.header.msg_type = "comm_info_reply";
  reply.content = { status: "ok", comms: {} };
  if (message.content.target_name === "code-comparison.settle") {
    const until = Date.now() + Number(message.content.limit_ms);
    while (Date.now() < until && timersLeft() > 0) await turnOfEventLoop();
    channel?.flush();
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

function kernelInfo(info) {
  return {
    ...info,
    status: "ok",
    implementation: "code-comparison",
    implementation_version: require("../package.json").version,
    language_info: { ...info.language_info, version: LANGUAGE_VERSION },
    banner: [
      `Code comparison (TypeScript) ${require("../package.json").version} on Node ${process.version.slice(1)}`,
      "Research use: compares tests with code predictions. Proposed factors are not code; demonstration data are invented.",
      "Anchorage failures can kill. Design follows the local code and a licensed engineer.",
    ].join("\n"),
    help_links: [],
  };
}

module.exports = { changeJupyter };
