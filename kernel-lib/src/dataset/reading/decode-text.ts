import { diagnostic, type Diagnostic } from "../checks/diagnostics";

/** A file's text, with what was found out while decoding it. */
export interface DecodedText {
  readonly text: string;
  readonly encoding: "utf-8" | "utf-16le" | "utf-16be" | "windows-1252";
  readonly diagnostics: ReadonlyArray<Diagnostic>;
}

/**
 * Decodes a text file: UTF-8 (with or without byte order mark), UTF-16 with byte order mark, else Windows-1252.
 * Windows-1252 is said, because a wrong guess there would change letters. Binary content gives an error and no text.
 */
export function decodeText(bytes: Uint8Array, file: string): DecodedText {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return decoded("utf-16le", bytes, []);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return decoded("utf-16be", bytes, []);
  const isZip = bytes[0] === 0x50 && bytes[1] === 0x4b;
  if (isZip || bytes.includes(0)) {
    const what = isZip ? "a zip archive or spreadsheet" : "binary data";
    return {
      text: "",
      encoding: "utf-8",
      diagnostics: [diagnostic("error", "not-text", `${file} is ${what}, expected a text file with comma, semicolon or tab separated values`, { file, expected: "a text file" })],
    };
  }
  try {
    return decoded("utf-8", bytes, []);
  } catch {
    return decoded("windows-1252", bytes, [
      diagnostic("information", "encoding", `${file} is not UTF-8 and was read as Windows-1252; check letters with accents`, { file, expected: "UTF-8" }),
    ]);
  }
}

function decoded(encoding: DecodedText["encoding"], bytes: Uint8Array, diagnostics: ReadonlyArray<Diagnostic>): DecodedText {
  return { text: new TextDecoder(encoding, { fatal: encoding === "utf-8" }).decode(bytes), encoding, diagnostics };
}
