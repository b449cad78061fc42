import { createRequire } from "node:module";
import type { MeasuredFont } from "fontkit";

/** The four faces of DejaVu Sans that figures are set in. */
export type FontFace = "regular" | "bold" | "oblique" | "boldOblique";

/**
 * Name that goes into SVG; the later names have nearly the same widths where DejaVu Sans is not
 * installed.
 */
export const fontFamily = "DejaVu Sans, Verdana, sans-serif";

const fileNames: Record<FontFace, string> = {
  regular: "DejaVuSans.ttf",
  bold: "DejaVuSans-Bold.ttf",
  oblique: "DejaVuSans-Oblique.ttf",
  boldOblique: "DejaVuSans-BoldOblique.ttf",
};

export const fontFaces: readonly FontFace[] = ["regular", "bold", "oblique", "boldOblique"];

/** Narrow faces for tables of many columns, in documents only. */
export type NarrowFace = "narrow" | "narrowBold";

const narrowNames: Record<NarrowFace, string> = {
  narrow: "DejaVuSansCondensed.ttf",
  narrowBold: "DejaVuSansCondensed-Bold.ttf",
};

export const narrowFaces: readonly NarrowFace[] = ["narrow", "narrowBold"];

/** Path of the font file that the package `dejavu-fonts-ttf` ships. */
export function fontFile(face: FontFace | NarrowFace): string {
  const name = { ...fileNames, ...narrowNames }[face];
  return createRequire(__filename).resolve(`dejavu-fonts-ttf/ttf/${name}`);
}

/** The face of the family for a weight and a slant. */
export function faceOf(bold: boolean, italic: boolean): FontFace {
  if (bold) return italic ? "boldOblique" : "bold";
  return italic ? "oblique" : "regular";
}

/** Measures text in the shipped fonts, so that a layout needs no browser and no installed font. */
export interface TextMeasure {
  /** Advance width of a text in pixels at a font size in pixels. */
  width(text: string, size: number, face: FontFace): number;
  /** Height of the face above the baseline, as a share of the font size. */
  readonly ascent: number;
  /** Depth of the face below the baseline, as a share of the font size. */
  readonly descent: number;
}

/** Opens the four faces (some 60 ms) and remembers every width it has measured. */
export async function openFonts(): Promise<TextMeasure> {
  const fontkit = await import("fontkit");
  const opened = new Map<FontFace, MeasuredFont>(
    fontFaces.map((face) => [face, fontkit.openSync(fontFile(face))]),
  );
  const font = (face: FontFace): MeasuredFont => {
    const found = opened.get(face);
    if (found === undefined)
      throw new Error(`No font face "${face}". Expected one of ${fontFaces.join(", ")}.`);
    return found;
  };
  const regular = font("regular");
  const remembered = new Map<string, number>();
  return {
    ascent: regular.ascent / regular.unitsPerEm,
    descent: -regular.descent / regular.unitsPerEm,
    width(text, size, face) {
      const key = `${face}|${text}`;
      let perEm = remembered.get(key);
      if (perEm === undefined) {
        perEm = font(face).layout(text).advanceWidth / font(face).unitsPerEm;
        remembered.set(key, perEm);
      }
      return perEm * size;
    },
  };
}
