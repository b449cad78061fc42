import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { DatasetError, diagnostic } from "../diagnostics";

/** Reads bytes, turning a missing or unreadable file into a DatasetError that says so. */
export async function readBytes(path: string, shown: string): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (error) {
    throw unreadable(error as NodeJS.ErrnoException, shown);
  }
}

/** Lower-case hexadecimal SHA-256 of bytes. */
export function sha256(bytes: Uint8Array): string {
  return createHash("sha256").update(bytes).digest("hex");
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: "does not exist",
  EISDIR: "is a folder",
  EACCES: "may not be read",
  ERR_FS_FILE_TOO_LARGE: "has more than 2 GiB and cannot be read: split it",
};

/** Why a file cannot be read, in words, from the system's error. */
function unreadable(error: NodeJS.ErrnoException, shown: string): DatasetError {
  const code = error.code ?? "unknown";
  const message = `${shown} ${REASONS[code] ?? `cannot be read (${code})`}, expected a readable file`;
  const place = { file: shown, expected: "a readable file" };
  return new DatasetError(message, [diagnostic("error", "unreadable-file", message, place)]);
}
