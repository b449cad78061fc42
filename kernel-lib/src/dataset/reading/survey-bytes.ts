import { createHash } from "node:crypto";
import type { ByteSource } from "./byte-source";

/** What one walk through a file's bytes tells before its text is read. */
export interface ByteSurvey {
  readonly length: number;
  /** Lower-case hexadecimal SHA-256. */
  readonly sha256: string;
  /** Bytes that end lines: line feeds, or carriage returns where there is none of them. */
  readonly lineEnds: number;
  readonly hasLineFeed: boolean;
  readonly hasNul: boolean;
  readonly isUtf8: boolean;
  /** The first 64 bytes, fewer in a shorter file. */
  readonly first: Uint8Array;
}

/** Walks through the bytes once: length, digest, line ends, and whether they can be text in UTF-8. */
export function surveyBytes(source: ByteSource): ByteSurvey {
  const hash = createHash("sha256");
  const utf8 = new TextDecoder("utf-8", { fatal: true });
  let [length, feeds, returns, hasNul, isUtf8] = [0, 0, 0, false, true];
  let first = new Uint8Array();
  for (const piece of source.pieces()) {
    if (length < 64) first = Uint8Array.from([...first, ...piece.subarray(0, 64)]).slice(0, 64);
    length += piece.length;
    hash.update(piece);
    feeds += countOf(piece, 10);
    if (feeds === 0) returns += countOf(piece, 13);
    hasNul ||= piece.includes(0);
    if (isUtf8) isUtf8 = decodes(utf8, piece, true);
  }
  if (isUtf8) isUtf8 = decodes(utf8, new Uint8Array(), false);
  return { length, sha256: hash.digest("hex"), lineEnds: feeds > 0 ? feeds : returns, hasLineFeed: feeds > 0, hasNul, isUtf8, first };
}

function countOf(bytes: Uint8Array, byte: number): number {
  let count = 0;
  for (let at = bytes.indexOf(byte); at !== -1; at = bytes.indexOf(byte, at + 1)) count += 1;
  return count;
}

function decodes(decoder: TextDecoder, bytes: Uint8Array, stream: boolean): boolean {
  try {
    decoder.decode(bytes, { stream });
    return true;
  } catch {
    return false;
  }
}
