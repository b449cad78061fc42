import type { EmbedmentPoint, EmbedmentForMode } from "./embedment-interval";

/** What ends an interval between its last embedment and the neighbour outside it. */
export function because(inside: EmbedmentPoint, outside: EmbedmentPoint, above: number): string {
  if (outside.withheld !== "") return outside.withheld;
  const times =
    above === 0
      ? "as high as the mode"
      : `${Number((1 + above).toPrecision(6))} times as high as the mode`;
  const met = Math.abs((1 + inside.margin) / (1 + above) - 1) < 1e-9;
  return met
    ? `there ${outside.rival ?? "nothing"} is ${times}`
    : `a capacity jumps there: ${outside.rival ?? "nothing"} is no longer ${times}`;
}

/** The embedments that bring a mode about, in one sentence, or why there are none. */
export function reading(
  { mode, above, from, to, intervals, best, line, unjudged }: Omit<EmbedmentForMode, "reading">,
  barred: string,
): string {
  const mm = (length: number): string => `${Number(length.toPrecision(4))} mm`;
  const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
  const name = mode.replaceAll("_", " ");
  const wanted =
    above === 0
      ? `${name} as the lowest load`
      : `${name} with every other load at least ${percent(above)} above it`;
  const blind = unjudged.length === 0 ? "" : ` Not judged: ${unjudged.join("; ")}.`;
  if (intervals.length > 0)
    return `${wanted[0]?.toUpperCase() ?? ""}${wanted.slice(1)}: embedment ${intervals.map((one) => `${mm(one.from)} (${one.fromBecause}) to ${mm(one.to)} (${one.toBecause})`).join("; and ")}.${blind}`;
  const none = `None: no embedment from ${mm(from)} to ${mm(to)} gives ${wanted}, because`;
  if (barred !== "") return `${none} ${barred}.${blind}`;
  if (best === null)
    return `${none} of this: ${[...new Set(line.map(({ withheld }) => withheld))].join("; or ")}.${blind}`;
  const rival = best.rival ?? "nothing";
  return best.margin < 0
    ? `${none} another mode governs everywhere. The closest is ${mm(best.embedment)}, where ${rival} is ${percent(-best.margin)} below it.${blind}`
    : `${none} the margin is smaller everywhere. The closest is ${mm(best.embedment)}, where ${rival} is ${percent(best.margin)} above it.${blind}`;
}
