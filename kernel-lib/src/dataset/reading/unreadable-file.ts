import { DatasetError, diagnostic } from "../checks/diagnostics";

/** Why a file cannot be read, in words, from the system's error. */
export function unreadable(error: NodeJS.ErrnoException, shown: string): DatasetError {
  const code = error.code ?? "unknown";
  const why = code === "ENOENT" ? "does not exist" : code === "EISDIR" ? "is a folder" : code === "EACCES" ? "may not be read" : `cannot be read (${code})`;
  return new DatasetError(`${shown} ${why}, expected a readable file`, [diagnostic("error", "unreadable-file", `${shown} ${why}, expected a readable file`, { file: shown, expected: "a readable file" })]);
}
