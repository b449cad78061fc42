export { createConnection, CHANNELS } from "./connection";
export type { Channel, Connection } from "./connection";
export { openChannels } from "./channels";
export type { ClientChannels, ListenChannel } from "./channels";
export { decodeMessage, encodeRequest } from "./message";
export type { MessageHeader, ReceivedMessage } from "./message";
export { sign, verify } from "./signing";
