import { createHmac, timingSafeEqual } from "node:crypto";

/**
 * HMAC-SHA256 over the message parts, in hexadecimal (Jupyter wire protocol, `signature_scheme:
 * hmac-sha256`).
 */
export function sign(key: string, parts: readonly (string | Buffer)[]): string {
  const hash = createHmac("sha256", key);
  for (const part of parts) hash.update(part);
  return hash.digest("hex");
}

/** Whether the signature belongs to the parts; compared in constant time. */
export function verify(
  key: string,
  parts: readonly (string | Buffer)[],
  signature: string,
): boolean {
  const expected = Buffer.from(sign(key, parts));
  const given = Buffer.from(signature);
  return expected.length === given.length && timingSafeEqual(expected, given);
}
