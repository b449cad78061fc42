import type { DriftRule, GaugePlace, ReductionOptions, Smoothing } from "../../curves";
import { invalidOption, names, numberFromZero, oneOf } from "../use/invalid-input";

export const PLACES: ReadonlyArray<GaugePlace> = ["loaded_end", "free_end", "unknown"];
export const DRIFTS: ReadonlyArray<DriftRule> = ["none", "rest-before", "rests"];
const TURNED = ["load", "displacement"] as const;

/** The rules of a reduction as they were typed. */
export interface ReductionWords {
  readonly freeLength?: string;
  readonly place?: string;
  readonly smoothing: string;
  readonly drift: string;
  readonly seating: string;
  readonly turn?: string;
}

/** The rules of a reduction. @throws InvalidInput */
export function reductionOptions({
  freeLength,
  place,
  smoothing,
  drift,
  seating,
  turn,
}: ReductionWords): ReductionOptions {
  return {
    ...(freeLength === undefined
      ? {}
      : { freeLength_mm: numberFromZero("free-length", freeLength) }),
    ...(place === undefined ? {} : { place: oneOf("place", place, PLACES) }),
    ...(turn === undefined
      ? {}
      : { turn: names("turn", turn).map((one) => oneOf("turn", one, TURNED)) }),
    smoothing: smoothingRule(smoothing),
    drift: oneOf("drift", drift, DRIFTS),
    seatingShare: numberFromZero("seating", seating),
  };
}

function smoothingRule(text: string): Smoothing {
  if (text === "none") return { rule: "none" };
  const [, rule, points] = /^(moving-median|moving-mean):(\d{1,3})$/.exec(text) ?? [];
  if (rule === undefined || Number(points) % 2 === 0)
    throw invalidOption(
      "smoothing",
      text,
      "none, moving-median:3 or moving-mean:5 (an odd number of points)",
    );
  return { rule: rule === "moving-mean" ? "moving-mean" : "moving-median", points: Number(points) };
}
