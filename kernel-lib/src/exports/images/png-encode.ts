import { crc32, deflateSync } from "node:zlib";

const signature = Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]);

function chunk(type: string, body: Buffer): Buffer {
  const named = Buffer.concat([Buffer.from(type, "latin1"), body]);
  const framed = Buffer.alloc(named.length + 8);
  framed.writeUInt32BE(body.length, 0);
  named.copy(framed, 4);
  framed.writeUInt32BE(crc32(named), named.length + 4);
  return framed;
}

/**
 * Encodes 8-bit RGBA pixels, row by row from the top, as PNG (ISO/IEC 15948, colour type 6, no
 * filter).
 */
export function encodePng(width: number, height: number, pixels: Uint8ClampedArray): Buffer {
  return framed(width, height, 6, [chunk("IDAT", deflateSync(rowsOf(width * 4, height, pixels)))]);
}

/**
 * Encodes opaque RGBA pixels with a palette (colour type 3, no filter): a drawing of lines, marks
 * and letters takes a third of the bytes. Each channel is rounded to 16 levels, which moves it by 8
 * of 255 at most; where more than 256 colors are left, to 8, then to 6.
 */
export function encodePalettePng(width: number, height: number, pixels: Uint8Array): Buffer {
  const { palette, indices } = [15, 7, 5]
    .map((steps) => indexed(pixels, steps))
    .find((found) => found !== null)!;
  return framed(width, height, 3, [
    chunk("PLTE", Buffer.from(palette)),
    chunk("IDAT", deflateSync(rowsOf(width, height, indices), { level: 9 })),
  ]);
}

/** The pixels as numbers of a palette; null where it would need more than 256 entries. */
function indexed(
  pixels: Uint8Array,
  steps: number,
): { readonly palette: readonly number[]; readonly indices: Uint8Array } | null {
  const rounded = Uint8Array.from({ length: 256 }, (_, level) =>
    Math.round((Math.round((level / 255) * steps) / steps) * 255),
  );
  const known = new Map<number, number>();
  const palette: number[] = [];
  const indices = new Uint8Array(pixels.length / 4);
  let [last, index] = [-1, 0];
  for (let from = 0, at = 0; at < indices.length; from += 4, at += 1) {
    const color = (pixels[from]! << 16) | (pixels[from + 1]! << 8) | pixels[from + 2]!;
    // Most pixels are those of the paper, side by side.
    if (color !== last) {
      last = color;
      const [r, g, b] = [color >> 16, (color >> 8) & 255, color & 255].map((c) => rounded[c]!);
      const key = (r! << 16) | (g! << 8) | b!;
      const found = known.get(key);
      index = found ?? known.size;
      if (index > 255) return null;
      if (found === undefined) {
        known.set(key, index);
        palette.push(r!, g!, b!);
      }
    }
    indices[at] = index;
  }
  return { palette, indices };
}

/** Rows of bytes, each behind a zero: no filter. */
function rowsOf(length: number, height: number, bytes: Uint8Array | Uint8ClampedArray): Buffer {
  const rows = Buffer.alloc((length + 1) * height);
  for (let y = 0; y < height; y += 1)
    rows.set(bytes.subarray(y * length, (y + 1) * length), y * (length + 1) + 1);
  return rows;
}

function framed(
  width: number,
  height: number,
  colorType: number,
  chunks: readonly Buffer[],
): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header[8] = 8;
  header[9] = colorType;
  return Buffer.concat([
    signature,
    chunk("IHDR", header),
    ...chunks,
    chunk("IEND", Buffer.alloc(0)),
  ]);
}
