import type { CellOutput, MimeBundle } from "../format";
import { compareDrawings } from "./compare-drawings";
import { FIGURE_TYPE } from "./compare-figures";
import { comparePixels } from "./compare-pictures";
import { DifferenceList } from "./difference";
import type { Difference } from "./difference";
import { contradictionsIn, holdsData } from "./forms-agree";
import { picturesOf, textOf } from "./pictures";
import type { Picture } from "./pictures";

/**
 * Largest difference of a color channel, of 255, between a drawing and its picture in pixels, which
 * may have a palette of six levels a channel to save bytes: half a level is 26.
 */
const PALETTE_COLOR = 32;

/** Draws figures anew from their data, outside the kernel that a notebook commands. */
export interface FigureDrawer {
  /**
   * The figure with the titles of the drawing `like` and the text alternative `plain`; undefined
   * where that drawing was made by other means than ours.
   */
  readonly svg: (
    figure: unknown,
    like: string,
    plain: string | undefined,
  ) => Promise<string | undefined>;
  /** A drawing as PNG of the width; undefined where that cannot be. */
  readonly png: (svg: string, width: number) => Promise<Uint8Array | undefined>;
}

/** What the outputs of a cell say against themselves. */
export interface OutputCheck {
  readonly differences: readonly Difference[];
  /** What could not be checked, or only points to a look. */
  readonly notes: readonly string[];
}

/**
 * Checks the outputs of one run in themselves: every form of an output against the others, each
 * picture against the others, and the drawing of a figure against one drawn anew from its data.
 */
export async function checkOutputs(
  outputs: readonly CellOutput[],
  drawer: FigureDrawer | undefined,
): Promise<OutputCheck> {
  const list = new DifferenceList(0);
  const notes: string[] = [];
  for (const [index, output] of outputs.entries()) {
    if (!("data" in output)) continue;
    const where = outputs.length > 1 ? `output ${index + 1}` : "output";
    for (const { where: place, one, other } of contradictionsIn(where, output.data)) {
      if (holdsData(output.data))
        list.within({ output: index + 1 }, () => list.other(place, one, other));
      else notes.push(`${place}: ${one} against ${other}`);
    }
    notes.push(...(await checkPictures(where, output.data, index + 1, list, drawer)));
  }
  return { differences: list.found, notes };
}

async function checkPictures(
  where: string,
  data: MimeBundle,
  output: number,
  list: DifferenceList,
  drawer: FigureDrawer | undefined,
): Promise<string[]> {
  const pictures = picturesOf(data);
  const [first, ...drawings] = pictures.filter(({ type }) => type === "image/svg+xml");
  if (first === undefined) {
    const shows = pictures.length > 0 && FIGURE_TYPE in data;
    return shows ? [`${where}: its picture is no drawing; it was not compared with its data`] : [];
  }
  const svg = first.bytes.toString("utf8");
  for (const { place, bytes } of drawings)
    list.within({ output }, () =>
      compareDrawings(`${where}, ${first.place} and ${place}`, svg, bytes.toString("utf8"), list),
    );
  if (drawer === undefined) return [];
  const notes: string[] = [];
  for (const picture of pictures.filter(({ type }) => type === "image/png")) {
    const place = `${where}, ${first.place} and ${picture.place}`;
    const drawn = await drawer.png(svg, widthOf(picture));
    if (drawn === undefined) notes.push(`${place}: not compared with each other`);
    else if (!picture.bytes.equals(drawn))
      list.within({ output }, () =>
        comparePixels(place, drawn, picture.bytes, list, PALETTE_COLOR),
      );
  }
  if (!(FIGURE_TYPE in data)) return notes;
  const plain = "text/plain" in data ? textOf(data["text/plain"]) : undefined;
  const anew = await drawer.svg(data[FIGURE_TYPE], svg, plain);
  if (anew === undefined)
    notes.push(
      `${where}: its picture is none that this library can draw; it was compared with the rerun, not with the data beside it`,
    );
  else
    list.within({ output }, () =>
      compareDrawings(`${where}, ${first.place} and the data drawn anew`, svg, anew, list),
    );
  return notes;
}

/** The width in the header of a PNG; 0 for what is none. */
function widthOf({ bytes }: Picture): number {
  return bytes.length >= 24 ? bytes.readUInt32BE(16) : 0;
}
