import { compareDrawings } from "./compare-drawings";
import type { DifferenceList } from "./difference";
import type { Picture } from "./pictures";
import { pngPixels } from "./png-pixels";

/**
 * Largest difference of a color channel, of 255, in pixels that count as the same: edges smoothed
 * by another version of the drawing program, far below a mark, a line or a digit.
 */
const SAME_COLOR = 8;

/**
 * Compares two pictures: drawings element by element, PNG pixel by pixel where the bytes differ,
 * anything else by its bytes.
 */
export function comparePictures(
  where: string,
  recorded: Picture,
  rerun: Picture,
  list: DifferenceList,
): void {
  const place = `${where}, ${recorded.place}`;
  if (recorded.type !== rerun.type) list.other(place, recorded.type, rerun.type);
  else if (recorded.bytes.equals(rerun.bytes)) return;
  else if (recorded.type === "image/svg+xml")
    compareDrawings(place, recorded.bytes.toString("utf8"), rerun.bytes.toString("utf8"), list);
  else if (recorded.type === "image/png") comparePixels(place, recorded.bytes, rerun.bytes, list);
  else list.other(place, "(recorded picture)", "(another picture)");
}

/** Compares two PNG pixel by pixel, each channel within 8 of 255 unless told otherwise. */
export function comparePixels(
  where: string,
  recorded: Uint8Array,
  rerun: Uint8Array,
  list: DifferenceList,
  sameColor = SAME_COLOR,
): void {
  const [before, after] = [pngPixels(recorded), pngPixels(rerun)];
  if (before === undefined || after === undefined)
    return list.other(where, "(recorded picture)", "(another picture, not comparable by pixels)");
  const size = ({ width, height }: typeof before): string => `${width} by ${height} pixels`;
  if (size(before) !== size(after)) return list.other(where, size(before), size(after));
  let [count, first] = [0, -1];
  for (let pixel = 0; pixel < before.rgba.length; pixel += 4)
    if (apart(before.rgba, after.rgba, pixel, sameColor)) {
      if (count++ === 0) first = pixel / 4;
    }
  if (count > 0)
    list.other(
      where,
      size(before),
      `${count} pixels differ, the first at ${first % before.width}, ${Math.floor(first / before.width)}`,
    );
}

function apart(a: Uint8Array, b: Uint8Array, at: number, sameColor: number): boolean {
  for (let channel = at; channel < at + 4; channel++)
    if (Math.abs((a[channel] ?? 0) - (b[channel] ?? 0)) > sameColor) return true;
  return false;
}
