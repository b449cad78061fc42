import { inflateSync } from "node:zlib";

/** A picture's pixels: red, green, blue and opacity from 0 to 255, row by row from the top. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8Array;
}

const SIGNATURE = Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]);
/** Bytes a pixel takes by color type: gray, RGB, palette, gray and opacity, RGBA. */
const BYTES: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };
/** Pictures beyond this many pixels are not decoded; their bytes alone are compared. */
const MOST_PIXELS = 25_000_000;

/**
 * Decodes a PNG (ISO/IEC 15948) of 8 bits a channel without interlacing, as picture writers make
 * them; undefined for any other, and for what is none.
 */
export function pngPixels(png: Uint8Array): Pixels | undefined {
  try {
    return decode(Buffer.from(png));
  } catch {
    return undefined;
  }
}

function decode(png: Buffer): Pixels | undefined {
  if (!png.subarray(0, 8).equals(SIGNATURE)) return undefined;
  const chunks = chunksOf(png);
  const header = chunks.find(({ type }) => type === "IHDR")?.body;
  if (header?.length !== 13) return undefined;
  const [width, height] = [header.readUInt32BE(0), header.readUInt32BE(4)];
  const [depth, color, interlaced] = [header[8], header[9] ?? -1, header[12]];
  const bytes = BYTES[color];
  if (depth !== 8 || bytes === undefined || interlaced !== 0 || width * height > MOST_PIXELS)
    return undefined;
  const packed = Buffer.concat(chunks.flatMap(({ type, body }) => (type === "IDAT" ? [body] : [])));
  const stride = width * bytes;
  const rows = inflateSync(packed, { maxOutputLength: (stride + 1) * height });
  if (rows.length !== (stride + 1) * height) return undefined;
  const plain = unfiltered(rows, stride, height, bytes);
  const body = (name: string): Buffer =>
    chunks.find(({ type }) => type === name)?.body ?? Buffer.alloc(0);
  const rgba =
    color === 6
      ? plain
      : color === 3
        ? fromPalette(plain, body("PLTE"), body("tRNS"))
        : inColor(plain, bytes);
  return { width, height, rgba };
}

function chunksOf(png: Buffer): { type: string; body: Buffer }[] {
  const chunks: { type: string; body: Buffer }[] = [];
  for (let at = 8; at + 12 <= png.length;) {
    const length = png.readUInt32BE(at);
    chunks.push({
      type: png.toString("latin1", at + 4, at + 8),
      body: png.subarray(at + 8, at + 8 + length),
    });
    at += length + 12;
  }
  return chunks;
}

/** Undoes the five filters of the standard, section 9. */
function unfiltered(rows: Buffer, stride: number, height: number, bytes: number): Uint8Array {
  const out = new Uint8Array(stride * height);
  for (let y = 0; y < height; y++) {
    const filter = rows[y * (stride + 1)];
    for (let x = 0; x < stride; x++) {
      const at = y * stride + x;
      const left = x >= bytes ? (out[at - bytes] ?? 0) : 0;
      const up = y > 0 ? (out[at - stride] ?? 0) : 0;
      const corner = x >= bytes && y > 0 ? (out[at - stride - bytes] ?? 0) : 0;
      const guess =
        filter === 1
          ? left
          : filter === 2
            ? up
            : filter === 3
              ? (left + up) >> 1
              : filter === 4
                ? nearest(left, up, corner)
                : 0;
      out[at] = (rows[y * (stride + 1) + 1 + x] ?? 0) + guess;
    }
  }
  return out;
}

/** The predictor of A. W. Paeth, as the standard gives it. */
function nearest(left: number, up: number, corner: number): number {
  const [a, b, c] = [
    Math.abs(up - corner),
    Math.abs(left - corner),
    Math.abs(left + up - 2 * corner),
  ];
  return a <= b && a <= c ? left : b <= c ? up : corner;
}

function fromPalette(entries: Uint8Array, palette: Uint8Array, opacity: Uint8Array): Uint8Array {
  const rgba = new Uint8Array(entries.length * 4);
  entries.forEach((entry, pixel) => {
    for (let channel = 0; channel < 3; channel++)
      rgba[4 * pixel + channel] = palette[3 * entry + channel] ?? 0;
    rgba[4 * pixel + 3] = opacity[entry] ?? 255;
  });
  return rgba;
}

/** Gray or RGB, with or without opacity, by the bytes a pixel takes. */
function inColor(plain: Uint8Array, bytes: number): Uint8Array {
  const rgba = new Uint8Array((plain.length / bytes) * 4);
  for (let at = 0, to = 0; at < plain.length; at += bytes, to += 4) {
    for (let channel = 0; channel < 3; channel++)
      rgba[to + channel] = plain[at + (bytes > 2 ? channel : 0)] ?? 0;
    rgba[to + 3] = bytes === 2 ? (plain[at + 1] ?? 0) : 255;
  }
  return rgba;
}
