import { isUtf8 } from "node:buffer";
import { diagnostic, type Diagnostic } from "../diagnostics";
import { fileKind, unmarkedUtf16 } from "./file-kind";

/** A file's text, with what was found out while decoding it. */
export interface DecodedText {
  readonly text: string;
  readonly encoding: "utf-8" | "utf-16le" | "utf-16be" | "windows-1252";
  readonly diagnostics: ReadonlyArray<Diagnostic>;
}

/**
 * Decodes a text file: UTF-8 (with or without byte order mark), UTF-16 with byte order mark, or
 * without one where every second byte is zero, else Windows-1252. What a file does not say of
 * itself is said, because a wrong guess there would change letters. Binary content gives an error
 * and no text.
 */
export function decodeText(bytes: Uint8Array, file: string): DecodedText {
  const as = (
    encoding: DecodedText["encoding"],
    diagnostics: ReadonlyArray<Diagnostic> = [],
  ): DecodedText => ({ text: new TextDecoder(encoding).decode(bytes), encoding, diagnostics });
  const [first, second] = bytes;
  const kind = fileKind(bytes);
  if (kind === null && first === 0xff && second === 0xfe) return as("utf-16le");
  if (kind === null && first === 0xfe && second === 0xff) return as("utf-16be");
  const hasNul = bytes.includes(0);
  const unmarked = kind === null && hasNul ? unmarkedUtf16(bytes.subarray(0, 64)) : null;
  if (unmarked !== null)
    return as(unmarked, [
      diagnostic(
        "information",
        "encoding",
        `${file} was read as UTF-16, which it does not say of itself; check letters with accents`,
        { file, expected: "UTF-8" },
      ),
    ]);
  if (kind !== null || hasNul) {
    const what = kind === null ? "binary data" : kind.what;
    const expected = "a text file with comma, semicolon or tab separated values";
    return {
      text: "",
      encoding: "utf-8",
      diagnostics: [
        diagnostic(
          "error",
          "not-text",
          `${file} is ${what}, expected ${expected}${kind === null ? "" : `: ${kind.advice}`}; nothing of it was read`,
          { file, expected },
        ),
      ],
    };
  }
  if (isUtf8(bytes)) return as("utf-8");
  return as("windows-1252", [
    diagnostic(
      "information",
      "encoding",
      `${file} is not UTF-8 and was read as Windows-1252; check letters with accents`,
      { file, expected: "UTF-8" },
    ),
  ]);
}
