import { sign, verify } from "node:crypto";
import { readFile } from "node:fs/promises";
import { NotebookProblem, writeWhole } from "../format";
import {
  fingerprint,
  publicBytes,
  publicKeyOf,
  readPrivateKey,
  readPublicKey,
} from "./signing-key";

/** What stands in the file of a detached signature. */
interface DetachedSignature {
  readonly schema: "code-comparison-signature/1";
  readonly algorithm: "ed25519";
  /** The 32 bytes of the public key, base64. */
  readonly public_key: string;
  /** 64 bytes over the bytes of the record, base64 (RFC 8032). */
  readonly signature: string;
}

/** The file of the signature beside a record. */
export function signatureFile(record: string): string {
  return `${record}.sig`;
}

/**
 * Signs the bytes of a record with a key of the reviewer's own and writes the signature beside it.
 * @returns the key's fingerprint
 * @throws NotebookProblem when the key cannot be read
 */
export async function writeSignature(record: string, keyFile: string): Promise<string> {
  const key = readPrivateKey(await keyText(keyFile), keyFile);
  const own = publicBytes(key);
  const signature: DetachedSignature = {
    schema: "code-comparison-signature/1",
    algorithm: "ed25519",
    public_key: own.toString("base64"),
    signature: sign(null, await readFile(record), key).toString("base64"),
  };
  await writeWhole(signatureFile(record), `${JSON.stringify(signature, null, 2)}\n`);
  return fingerprint(own);
}

/** What the signature of a record comes to. */
export interface CheckedSignature {
  /** The key that signed, by its fingerprint; undefined where there is no signature. */
  readonly signedBy?: string;
  /** Empty where the signature holds, or where there is none and no key was asked for. */
  readonly problems: readonly string[];
}

/**
 * Verifies the signature beside a record. `keyFile` names the public key that must have signed;
 * without it, any key may have, and its fingerprint is to be compared.
 */
export async function checkSignature(record: string, keyFile?: string): Promise<CheckedSignature> {
  const wanted = keyFile === undefined ? undefined : readPublicKey(await keyText(keyFile), keyFile);
  const file = signatureFile(record);
  const text = await readFile(file, "utf8").catch(() => undefined);
  if (text === undefined)
    return { problems: wanted === undefined ? [] : [`there is no signature ${file}`] };
  const parts = partsOf(text);
  if (parts === undefined) return { problems: [`${file} is no signature`] };
  const holds = verify(null, await readFile(record), publicKeyOf(parts.key), parts.signature);
  const signedBy = fingerprint(parts.key);
  const other = wanted !== undefined && !wanted.equals(parts.key);
  return {
    signedBy,
    problems: [
      ...(holds ? [] : [`${file} is not the signature of this record: one of the two was changed`]),
      ...(other ? [`the record is signed with the key ${signedBy}, not with ${keyFile}`] : []),
    ],
  };
}

function partsOf(text: string): { key: Buffer; signature: Buffer } | undefined {
  try {
    const value = JSON.parse(text) as Partial<DetachedSignature>;
    const key = Buffer.from(String(value.public_key), "base64");
    const signature = Buffer.from(String(value.signature), "base64");
    return value.schema === "code-comparison-signature/1" &&
      key.length === 32 &&
      signature.length === 64
      ? { key, signature }
      : undefined;
  } catch {
    return undefined;
  }
}

function keyText(file: string): Promise<string> {
  return readFile(file, "utf8").catch((error: Error) => {
    throw new NotebookProblem(`there is no key ${file}`, { cause: error });
  });
}
