import { diagnostic, type Diagnostic } from "../checks/diagnostics";
import { sourceOf, type ByteSource } from "./byte-source";
import { fileKind, unmarkedUtf16 } from "./file-kind";
import { surveyBytes, type ByteSurvey } from "./survey-bytes";

/** A file's text, with what was found out while decoding it. */
export interface DecodedText {
  readonly text: string;
  readonly encoding: "utf-8" | "utf-16le" | "utf-16be" | "windows-1252";
  readonly diagnostics: ReadonlyArray<Diagnostic>;
}

/** A file's text in pieces, with what was found out about its encoding. */
export interface TextPieces {
  readonly encoding: DecodedText["encoding"];
  readonly diagnostics: ReadonlyArray<Diagnostic>;
  /** The pieces in order, decoded one at a time; none for a file that is no text. */
  readonly pieces: () => Generator<string>;
}

/**
 * Decodes a text file piece by piece: UTF-8 (with or without byte order mark), UTF-16 with byte order mark, or without
 * one where every second byte is zero, else Windows-1252.
 * What a file does not say of itself is said, because a wrong guess there would change letters. Binary content gives an error and no text.
 */
export function decodePieces(source: ByteSource, survey: ByteSurvey, file: string): TextPieces {
  const as = (encoding: DecodedText["encoding"], diagnostics: ReadonlyArray<Diagnostic> = []): TextPieces => ({ encoding, diagnostics, pieces: () => piecesOf(source, encoding) });
  const [first, second] = survey.first;
  const kind = fileKind(survey.first);
  if (kind === null && first === 0xff && second === 0xfe) return as("utf-16le");
  if (kind === null && first === 0xfe && second === 0xff) return as("utf-16be");
  const unmarked = kind === null && survey.hasNul ? unmarkedUtf16(survey.first) : null;
  if (unmarked !== null) return as(unmarked, [diagnostic("information", "encoding", `${file} was read as UTF-16, which it does not say of itself; check letters with accents`, { file, expected: "UTF-8" })]);
  if (kind !== null || survey.hasNul) {
    const what = kind === null ? "binary data" : kind.what;
    const expected = "a text file with comma, semicolon or tab separated values";
    return { ...as("utf-8", [diagnostic("error", "not-text", `${file} is ${what}, expected ${expected}${kind === null ? "" : `: ${kind.advice}`}; nothing of it was read`, { file, expected })]), pieces: () => piecesOf({ pieces: () => [] }, "utf-8") };
  }
  if (survey.isUtf8) return as("utf-8");
  return as("windows-1252", [diagnostic("information", "encoding", `${file} is not UTF-8 and was read as Windows-1252; check letters with accents`, { file, expected: "UTF-8" })]);
}

function* piecesOf(source: ByteSource, encoding: DecodedText["encoding"]): Generator<string> {
  const decoder = new TextDecoder(encoding);
  for (const piece of source.pieces()) yield decoder.decode(piece, { stream: true });
  const rest = decoder.decode();
  if (rest !== "") yield rest;
}

/** Decodes a text file as a whole; see decodePieces. */
export function decodeText(bytes: Uint8Array, file: string): DecodedText {
  const source = sourceOf(bytes);
  const { encoding, diagnostics, pieces } = decodePieces(source, surveyBytes(source), file);
  return { text: [...pieces()].join(""), encoding, diagnostics };
}

/** A copy that does not keep the whole piece of text alive that it was cut from; short strings are copies already. */
export function ownText(cut: string): string {
  return cut.length < 13 ? cut : Buffer.from(cut, "utf8").toString("utf8");
}
