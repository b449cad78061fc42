import { randomUUID } from "node:crypto";
import { createConnection, encodeRequest, openChannels } from "../wire-protocol";
import type { ClientChannels, Connection, ListenChannel, ReceivedMessage } from "../wire-protocol";
import { describeExit } from "./describe-exit";
import { startKernelProcess } from "./kernel-process";
import type { KernelExit, KernelProcess, KernelProcessOptions } from "./kernel-process";

/** Thrown to a request that the kernel can no longer answer. */
export class KernelDied extends Error {
  override readonly name = "KernelDied";
  constructor(readonly exit: KernelExit) {
    super(describeExit(exit));
  }
}

/** A message on the kernel's output channel that belongs to a request. */
export interface OutputMessage {
  readonly type: string;
  readonly content: Record<string, unknown>;
}

interface Pending {
  readonly onMessage: (channel: ListenChannel, message: ReceivedMessage) => void;
  readonly onDeath: (exit: KernelExit) => void;
}

export type KernelStartOptions = Omit<KernelProcessOptions, "connectionFile"> & {
  /** Give up when the kernel has not answered within this time. Default 60 s. */
  readonly startLimitSeconds?: number;
};

/** A kernel in a child process, spoken to over the Jupyter wire protocol. */
export class KernelClient {
  private readonly pending = new Map<string, Pending>();
  private readonly session = randomUUID();
  private channels: ClientChannels | undefined;
  private exit: KernelExit | undefined;
  /** The kernel's answer to `kernel_info_request`. */
  info: Record<string, unknown> = {};

  private constructor(
    private readonly connection: Connection,
    private readonly process: KernelProcess,
  ) {}

  /** Starts a kernel and waits until it answers and its output channel is heard. */
  static async start(options: KernelStartOptions): Promise<KernelClient> {
    const connection = await createConnection();
    const kernelProcess = startKernelProcess({ ...options, connectionFile: connection.file });
    const client = new KernelClient(connection, kernelProcess);
    void kernelProcess.exited.then((exit) => client.onExit(exit));
    try {
      client.channels = await openChannels(connection, (channel, message) =>
        client.onMessage(channel, message),
      );
      await client.greet((options.startLimitSeconds ?? 60) * 1000);
    } catch (error) {
      await client.kill();
      throw error;
    }
    return client;
  }

  get pid(): number {
    return this.process.pid;
  }

  get exited(): Promise<KernelExit> {
    return this.process.exited;
  }

  /**
   * Sends a request and resolves with the reply once both the reply and the closing `idle`
   * have come. Rejects with KernelDied when the kernel ends first.
   */
  async request(
    type: string,
    content: object,
    onOutput: (message: OutputMessage) => void = () => undefined,
    channel: "shell" | "control" = "shell",
    giveUpAfterMs?: number,
    keepListening = false,
  ): Promise<Record<string, unknown>> {
    if (this.exit) throw new KernelDied(this.exit);
    const { id, frames } = encodeRequest(this.connection.key, this.session, type, content);
    const answered = new Promise<Record<string, unknown>>((resolve, reject) => {
      let reply: Record<string, unknown> | undefined;
      let idle = false;
      const timer =
        giveUpAfterMs === undefined
          ? undefined
          : setTimeout(
              () =>
                reject(new Error(`the kernel did not answer ${type} within ${giveUpAfterMs} ms`)),
              giveUpAfterMs,
            );
      const settle = (): void => {
        if (!reply || !idle) return;
        clearTimeout(timer);
        resolve(reply);
      };
      this.pending.set(id, {
        onMessage: (from, message) => {
          if (from !== "iopub") reply = message.content;
          else if (message.header.msg_type !== "status")
            onOutput({ type: message.header.msg_type, content: message.content });
          else if (message.content["execution_state"] === "idle") idle = true;
          settle();
        },
        onDeath: (exit) => {
          clearTimeout(timer);
          reject(new KernelDied(exit));
        },
      });
    });
    try {
      await this.channels?.send(channel, frames);
      return await answered;
    } finally {
      if (!keepListening) this.pending.delete(id);
    }
  }

  /**
   * Runs code and resolves with the reply. `onOutput` keeps hearing what timers and promises of
   * this code print or throw later, as long as the kernel lives.
   */
  async execute(
    code: string,
    onOutput: (message: OutputMessage) => void,
    storeHistory = true,
  ): Promise<Record<string, unknown>> {
    const content = {
      code,
      silent: false,
      store_history: storeHistory,
      user_expressions: {},
      allow_stdin: false,
      stop_on_error: false,
    };
    return this.request("execute_request", content, onOutput, "shell", undefined, true);
  }

  /**
   * Waits until no timer that a cell started is left, at most `limitMs`. What such timers print
   * or throw has been heard when this resolves.
   */
  async settle(limitMs: number): Promise<void> {
    // A request every kernel answers; ours waits before it does so when asked for this name.
    const content = { target_name: "code-comparison.settle", limit_ms: limitMs };
    await this.request("comm_info_request", content, undefined, "shell", limitMs + 1000);
  }

  /** Stops the running cell, whether it computes or waits; the kernel lives on. */
  interrupt(): void {
    this.process.interrupt();
  }

  /** Ends the kernel at once. */
  async kill(): Promise<void> {
    this.process.signal("SIGKILL");
    await this.process.exited;
    this.close();
  }

  /** Asks the kernel to end, and kills it when it has not done so within the grace. */
  async shutdown(graceMs = 1500): Promise<void> {
    if (!this.exit) {
      const gone = this.request(
        "shutdown_request",
        { restart: false },
        undefined,
        "control",
        graceMs,
      ).catch(() => undefined);
      await gone;
      const timer = setTimeout(() => this.process.signal("SIGKILL"), graceMs);
      await this.process.exited;
      clearTimeout(timer);
    }
    this.close();
  }

  private async greet(limitMs: number): Promise<void> {
    // A subscriber hears nothing until its subscription has reached the kernel. So ask again,
    // at short intervals, until an answer's `idle` has been heard as well. The intervals grow: on a
    // machine with too much to do every answer could come just after its time.
    const until = Date.now() + limitMs;
    for (let patience = 40; ; patience = Math.min(2000, 1.25 * patience)) {
      try {
        this.info = await this.request(
          "kernel_info_request",
          {},
          undefined,
          "shell",
          Math.round(patience),
        );
        return;
      } catch (error) {
        if (error instanceof KernelDied)
          throw new Error(
            `the kernel did not start: ${error.exit.lastWords.trim() || error.message}`,
            { cause: error },
          );
        if (Date.now() > until)
          throw new Error(`the kernel did not answer within ${limitMs / 1000} s of its start`, {
            cause: error,
          });
      }
    }
  }

  private onMessage(channel: ListenChannel, message: ReceivedMessage): void {
    if (message.parentId !== undefined)
      this.pending.get(message.parentId)?.onMessage(channel, message);
  }

  private onExit(exit: KernelExit): void {
    this.exit = exit;
    for (const pending of [...this.pending.values()]) pending.onDeath(exit);
    this.close();
  }

  private close(): void {
    this.channels?.close();
    this.channels = undefined;
    this.connection.remove();
  }
}
