import type { Dealer, Subscriber } from "zeromq";
import type { Connection } from "./connection";
import { decodeMessage } from "./message";
import type { ReceivedMessage } from "./message";

export type ListenChannel = "shell" | "control" | "iopub";

/** The client's three sockets to a kernel. */
export interface ClientChannels {
  readonly send: (channel: "shell" | "control", frames: (Buffer | string)[]) => Promise<void>;
  readonly close: () => void;
}

/**
 * Connects to a kernel and hands on every message whose signature is right.
 * The subscriber's high-water mark is lifted: with ZeroMQ's default of 1,000 a cell that
 * prints much would lose lines, and the closing `idle` with them.
 */
export async function openChannels(
  connection: Connection,
  onMessage: (channel: ListenChannel, message: ReceivedMessage) => void,
): Promise<ClientChannels> {
  const zeromq = await import("zeromq");
  // The kernel opens its ends a second later: try again often, so that its start is not drawn out.
  const options = { linger: 0, reconnectInterval: 10 };
  const shell = new zeromq.Dealer(options);
  const control = new zeromq.Dealer(options);
  const iopub = new zeromq.Subscriber({ ...options, receiveHighWaterMark: 0 });
  shell.connect(connection.address("shell"));
  control.connect(connection.address("control"));
  iopub.connect(connection.address("iopub"));
  iopub.subscribe();

  const listen = async (channel: ListenChannel, socket: Dealer | Subscriber): Promise<void> => {
    try {
      for await (const frames of socket) {
        const message = decodeMessage(connection.key, frames);
        if (message) onMessage(channel, message);
      }
    } catch (error) {
      // Closing a socket ends its receive loop by an error; any other error is ours to see.
      if (!socket.closed) throw error;
    }
  };
  void listen("shell", shell);
  void listen("control", control);
  void listen("iopub", iopub);

  const sockets = { shell, control };
  return {
    send: (channel, frames) => sockets[channel].send(frames),
    close: () => [shell, control, iopub].forEach((socket) => socket.close()),
  };
}
