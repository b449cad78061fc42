import type { Gauge, GaugePlace, LoadCurve } from "./curve";
import type { ReductionOptions } from "./curve-reduction";

/**
 * The gauges that give the slip; a single one is flagged. @throws RangeError for a place without a
 * gauge
 */
export function chosenGauges(
  { gauges }: LoadCurve,
  place: GaugePlace | undefined,
  flags: string[],
): ReadonlyArray<Gauge> {
  const wanted =
    place ??
    (["loaded_end", "free_end", "unknown"] as const).find((p) =>
      gauges.some((gauge) => gauge.place === p),
    );
  const chosen = gauges.filter((gauge) => gauge.place === wanted);
  if (chosen.length === 0)
    throw new RangeError(
      `no gauge at "${String(wanted)}": the record has ${gauges.map(({ name }) => name).join(", ")}`,
    );
  if (chosen.length === 1) flags.push("a single gauge: tilting of the bar cannot be seen");
  return chosen;
}

/** Mean of the gauges at each reading, mm. */
export function meanDisplacement(gauges: ReadonlyArray<Gauge>): Float64Array {
  const first = gauges[0]?.values_mm ?? new Float64Array(0);
  return first.map(
    (_, i) => gauges.reduce((sum, { values_mm }) => sum + (values_mm[i] ?? NaN), 0) / gauges.length,
  );
}

/**
 * Elongation of the free length for each kN, L / (E A) in mm/kN; 0 at the free end, or where it is
 * not known (flagged).
 */
export function elongationPerLoad(
  gauges: ReadonlyArray<Gauge>,
  { freeLength_mm, barModulus_GPa, barArea_mm2 }: ReductionOptions,
  flags: string[],
): number {
  if (gauges[0]?.place === "free_end") return 0;
  if (freeLength_mm === undefined || barModulus_GPa === undefined || barArea_mm2 === undefined) {
    flags.push(
      "the elongation of the free length is not subtracted: free length, modulus or area is not given",
    );
    return 0;
  }
  return freeLength_mm / (barModulus_GPa * barArea_mm2);
}
