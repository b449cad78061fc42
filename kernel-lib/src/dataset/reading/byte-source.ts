import { closeSync, openSync, readSync } from "node:fs";
import { unreadable } from "./unreadable-file";

/** The bytes of a file, as often as wanted and never all at once. */
export interface ByteSource {
  /** The pieces in order. A piece is only good until the next one is asked for. */
  pieces(): Iterable<Uint8Array>;
}

/** Bytes in one piece. Small enough that its text dies young: texts of megabytes would pile up until a full collection. */
const PIECE = 1 << 16;

/** Bytes already at hand as a source. */
export function sourceOf(bytes: Uint8Array): ByteSource {
  return {
    *pieces(): Generator<Uint8Array> {
      for (let at = 0; at < bytes.length; at += PIECE) yield bytes.subarray(at, at + PIECE);
    },
  };
}

/** A file as a source; it is opened anew for every walk through it. @throws DatasetError when it cannot be read */
export function fileSource(path: string, shown: string): ByteSource {
  return {
    *pieces(): Generator<Uint8Array> {
      const buffer = new Uint8Array(PIECE);
      let handle = -1;
      try {
        handle = openSync(path, "r");
        for (;;) {
          const length = readSync(handle, buffer, 0, PIECE, null);
          if (length === 0) return;
          yield buffer.subarray(0, length);
        }
      } catch (error) {
        if ((error as NodeJS.ErrnoException).syscall === undefined) throw error;
        throw unreadable(error as NodeJS.ErrnoException, shown);
      } finally {
        if (handle !== -1) closeSync(handle);
      }
    },
  };
}
