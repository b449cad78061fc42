import { inflateRawSync } from "node:zlib";

/** What a zip archive may hold at most, so that a small file cannot fill the memory. */
export interface ZipLimits {
  readonly entries: number;
  readonly entryBytes: number;
  readonly totalBytes: number;
}

export const ZIP_LIMITS: ZipLimits = {
  entries: 2000,
  entryBytes: 200_000_000,
  totalBytes: 400_000_000,
};

/** A fault of the archive, in words for a reader. */
export class ZipFault extends Error {
  override readonly name = "ZipFault";
}

/**
 * Reads the wanted entries of a zip archive. Sizes are held to the limits while inflating, whatever
 * the archive claims. Encrypted, split and 64-bit archives are refused; so is any method but stored
 * and deflated.
 * @throws ZipFault
 */
export function zipEntries(
  bytes: Uint8Array,
  wanted: (name: string) => boolean,
  limits: ZipLimits = ZIP_LIMITS,
): Map<string, Uint8Array> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = endOfDirectory(view);
  const count = view.getUint16(end + 10, true);
  let at = view.getUint32(end + 16, true);
  if (count > limits.entries)
    throw new ZipFault(
      `the archive has ${String(count)} entries, expected at most ${String(limits.entries)}`,
    );
  const found = new Map<string, Uint8Array>();
  let total = 0;
  for (let k = 0; k < count; k += 1) {
    if (at + 46 > bytes.length || view.getUint32(at, true) !== 0x02014b50)
      throw new ZipFault("the archive's directory is damaged");
    const flags = view.getUint16(at + 8, true);
    const method = view.getUint16(at + 10, true);
    const packed = view.getUint32(at + 20, true);
    const [nameLength, extraLength, commentLength] = [28, 30, 32].map((offset) =>
      view.getUint16(at + offset, true),
    ) as [number, number, number];
    const local = view.getUint32(at + 42, true);
    const name = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + nameLength));
    at += 46 + nameLength + extraLength + commentLength;
    if (!wanted(name)) continue;
    if ((flags & 1) !== 0) throw new ZipFault("the archive is encrypted");
    if (packed === 0xffffffff || local === 0xffffffff)
      throw new ZipFault("the archive is of the 64-bit kind");
    if (local + 30 > bytes.length || view.getUint32(local, true) !== 0x04034b50)
      throw new ZipFault(`the entry ${name} is damaged`);
    const start = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    if (start + packed > bytes.length) throw new ZipFault(`the entry ${name} is cut off`);
    const content = unpack(
      bytes.subarray(start, start + packed),
      method,
      Math.min(limits.entryBytes, limits.totalBytes - total),
      name,
    );
    total += content.length;
    found.set(name, content);
  }
  return found;
}

function endOfDirectory(view: DataView): number {
  for (let at = view.byteLength - 22; at >= 0 && at >= view.byteLength - 22 - 65535; at -= 1) {
    if (view.getUint32(at, true) === 0x06054b50) return at;
  }
  throw new ZipFault("the file is no zip archive or is cut off");
}

function unpack(packed: Uint8Array, method: number, limit: number, name: string): Uint8Array {
  if (method === 0) {
    if (packed.length > limit) throw new ZipFault(`the entry ${name} is too large`);
    return packed;
  }
  if (method !== 8) throw new ZipFault(`the entry ${name} is packed by an unknown method`);
  try {
    return inflateRawSync(packed, { maxOutputLength: Math.max(1, limit) });
  } catch (error) {
    const tooLarge = (error as NodeJS.ErrnoException).code === "ERR_BUFFER_TOO_LARGE";
    throw new ZipFault(
      tooLarge
        ? `the entry ${name} unpacks to more than is allowed`
        : `the entry ${name} is damaged`,
    );
  }
}
