import { encodePng } from "./png-encode";

interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray;
}

type Colour = readonly [number, number, number, number];

/** Reads the two colour spellings plotly hands to a canvas: `rgb(a)(…)` and `#rrggbb`. */
export function readColour(spelling: string): Colour {
  const list = /rgba?\(([^)]*)\)/.exec(spelling)?.[1];
  if (list !== undefined) {
    const [red = 0, green = 0, blue = 0, alpha = 1] = list.split(",").map(Number);
    return [red, green, blue, Math.round(alpha * 255)];
  }
  const hex = /^#([0-9a-f]{6})$/i.exec(spelling)?.[1];
  if (hex === undefined)
    throw new Error(
      `Cannot read the colour "${spelling}". Expected rgb(r, g, b), rgba(r, g, b, a) or #rrggbb.`,
    );
  const bits = Number.parseInt(hex, 16);
  return [bits >> 16, (bits >> 8) & 255, bits & 255, 255];
}

/** The few canvas operations that plotly's heat maps use, painted into plain RGBA pixels. */
export class PixelCanvas {
  fillStyle = "#000000";
  private pixels = new Uint8ClampedArray(0);

  constructor(private readonly element: { readonly width: number; readonly height: number }) {}

  createImageData(width: number, height: number): Pixels {
    return { width, height, data: new Uint8ClampedArray(width * height * 4) };
  }

  putImageData(image: Pixels, left: number, top: number): void {
    const target = this.surface();
    for (let row = 0; row < image.height; row += 1) {
      const from = image.data.subarray(row * image.width * 4, (row + 1) * image.width * 4);
      target.set(from, ((top + row) * this.element.width + left) * 4);
    }
  }

  fillRect(left: number, top: number, width: number, height: number): void {
    const target = this.surface();
    const colour = readColour(this.fillStyle);
    const lastRow = Math.min(this.element.height, Math.round(top + height));
    const lastColumn = Math.min(this.element.width, Math.round(left + width));
    for (let y = Math.max(0, Math.round(top)); y < lastRow; y += 1) {
      for (let x = Math.max(0, Math.round(left)); x < lastColumn; x += 1)
        target.set(colour, (y * this.element.width + x) * 4);
    }
  }

  clearRect(): void {
    this.surface().fill(0);
  }

  toDataUrl(): string {
    return `data:image/png;base64,${encodePng(this.element.width, this.element.height, this.surface()).toString("base64")}`;
  }

  private surface(): Uint8ClampedArray {
    const wanted = this.element.width * this.element.height * 4;
    if (this.pixels.length !== wanted) this.pixels = new Uint8ClampedArray(wanted);
    return this.pixels;
  }
}
