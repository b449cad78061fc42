import { deflateRawSync } from "node:zlib";

/** One file of an archive. */
export interface ArchiveFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/**
 * 1 January 2000, 00:00, as MS-DOS date and time: the same archive has the same bytes on every day.
 */
const FIXED_DATE = ((2000 - 1980) << 9) | (1 << 5) | 1;
const FIXED_TIME = 0;
const UTF8_NAMES = 0x0800;
const DEFLATED = 8;

const CRC_TABLE: readonly number[] = Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; k++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c >>> 0;
});

/** CRC-32 of ISO 3309, as ZIP archives carry it. */
export function crc32(bytes: Uint8Array): number {
  let c = 0xffffffff;
  for (const byte of bytes) c = (CRC_TABLE[(c ^ byte) & 0xff] ?? 0) ^ (c >>> 8);
  return (c ^ 0xffffffff) >>> 0;
}

/**
 * A ZIP archive (PKWARE APPNOTE 6.3) of the files in the order given, with a fixed date: the same
 * files give the same bytes. For archives below 4 GB and 65,535 files.
 * @throws Error for a name twice, a name with a leading slash or one that leaves the archive
 * @example zipArchive([{ name: "a.txt", content: "one" }])
 */
export function zipArchive(files: readonly ArchiveFile[]): Uint8Array {
  const seen = new Set<string>();
  const parts: Buffer[] = [];
  const directory: Buffer[] = [];
  let offset = 0;
  for (const { name, content } of files) {
    if (seen.has(name) || name.startsWith("/") || name.split("/").includes(".."))
      throw new Error(
        `The archive cannot hold "${name}". Expected each name once, relative, with "/" between folders.`,
      );
    seen.add(name);
    const plain =
      typeof content === "string"
        ? Buffer.from(content, "utf8")
        : Buffer.from(content.buffer, content.byteOffset, content.byteLength);
    const packed = deflateRawSync(plain, { level: 9 });
    const nameBytes = Buffer.from(name, "utf8");
    const facts = Buffer.alloc(26);
    facts.writeUInt16LE(20, 0);
    facts.writeUInt16LE(UTF8_NAMES, 2);
    facts.writeUInt16LE(DEFLATED, 4);
    facts.writeUInt16LE(FIXED_TIME, 6);
    facts.writeUInt16LE(FIXED_DATE, 8);
    facts.writeUInt32LE(crc32(plain), 10);
    facts.writeUInt32LE(packed.length, 14);
    facts.writeUInt32LE(plain.length, 18);
    facts.writeUInt16LE(nameBytes.length, 22);
    parts.push(signature("PK\u0003\u0004"), facts, nameBytes, packed);
    const place = Buffer.alloc(14);
    place.writeUInt32LE(offset, 10);
    directory.push(signature("PK\u0001\u0002"), Buffer.from([20, 0]), facts, place, nameBytes);
    offset += 4 + facts.length + nameBytes.length + packed.length;
  }
  const size = directory.reduce((sum, { length }) => sum + length, 0);
  const end = Buffer.alloc(18);
  end.writeUInt16LE(files.length, 4);
  end.writeUInt16LE(files.length, 6);
  end.writeUInt32LE(size, 8);
  end.writeUInt32LE(offset, 12);
  return new Uint8Array(Buffer.concat([...parts, ...directory, signature("PK\u0005\u0006"), end]));
}

function signature(text: string): Buffer {
  return Buffer.from(text, "latin1");
}
