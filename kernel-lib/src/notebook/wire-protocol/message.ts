import { randomUUID } from "node:crypto";
import { sign, verify } from "./signing";

/** Header of a message of the Jupyter wire protocol, version 5.3. */
export interface MessageHeader {
  readonly msg_id: string;
  readonly msg_type: string;
  readonly session: string;
  readonly username: string;
  readonly date: string;
  readonly version: string;
}

/** A message as it came off the wire, its signature checked. */
export interface ReceivedMessage {
  readonly header: MessageHeader;
  readonly parentId: string | undefined;
  readonly content: Record<string, unknown>;
}

const DELIMITER = Buffer.from("<IDS|MSG>");

/**
 * Builds the frames of a request: delimiter, signature, header, parent header, metadata, content.
 */
export function encodeRequest(
  key: string,
  session: string,
  type: string,
  content: object,
): { id: string; frames: (Buffer | string)[] } {
  const id = randomUUID();
  const header: MessageHeader = {
    msg_id: id,
    msg_type: type,
    session,
    username: "code-comparison",
    date: new Date().toISOString(),
    version: "5.3",
  };
  const parts = [header, {}, {}, content].map((part) => JSON.stringify(part));
  return { id, frames: [DELIMITER, sign(key, parts), ...parts] };
}

/**
 * Reads the frames of a message. Returns undefined when the frames are no message of this
 * connection: no delimiter, a wrong signature, or parts that are not JSON. Such frames come
 * from elsewhere than our kernel and are not to be acted upon.
 */
export function decodeMessage(key: string, frames: readonly Buffer[]): ReceivedMessage | undefined {
  const start = frames.findIndex((frame) => frame.equals(DELIMITER));
  const signature = frames[start + 1];
  const parts = frames.slice(start + 2);
  const [header, parent, metadata, content] = parts;
  if (start < 0 || !signature || !header || !parent || !metadata || !content) return undefined;
  if (!verify(key, parts, signature.toString())) return undefined;
  try {
    const parentHeader = JSON.parse(parent.toString()) as Partial<MessageHeader>;
    return {
      header: JSON.parse(header.toString()) as MessageHeader,
      parentId: parentHeader.msg_id,
      content: JSON.parse(content.toString()) as Record<string, unknown>,
    };
  } catch {
    return undefined;
  }
}
