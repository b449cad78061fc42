import type { TestColumns } from "../inputs/prepare";
import type { CodeDefinition } from "../model/definition";
import type { FailureMode } from "../model/levels";
import { reasonsAt } from "../model/reasons";
import { setupAllows } from "../model/setup-modes";
import { modeMargins, type ModeMargins } from "./margin-of-mode";
import type { PlanningSettings } from "./mode-loads";

export interface EmbedmentSettings extends PlanningSettings {
  /**
   * Least margin of everything else over the mode, relative: 0.25 asks for 25 % more. Default 0.
   */
  readonly above?: number;
  /**
   * Range looked at, mm; by default 2 to 30 bar diameters, no deeper than the member where its
   * thickness is known.
   */
  readonly from?: number;
  readonly to?: number;
  /**
   * Whether embedments beyond a limit that the wanted mode's provision only reports count, too.
   * Default no.
   */
  readonly beyondLimits?: boolean;
}

/**
 * A range of embedments that answer the question, with what ends it on each side; lengths in mm.
 */
export interface EmbedmentInterval {
  readonly from: number;
  readonly to: number;
  readonly fromBecause: string;
  readonly toBecause: string;
}

/** One embedment looked at. */
export interface EmbedmentPoint {
  readonly embedment: number;
  /** Load of the wanted mode, N. */
  readonly wanted_N: number;
  readonly rival: string | null;
  readonly rival_N: number;
  readonly margin: number;
  /** Why it does not count in spite of its margin; empty when it does. */
  readonly withheld: string;
}

/** The embedments at which the wanted mode governs with the margin asked for. */
export interface EmbedmentForMode {
  readonly mode: FailureMode;
  readonly above: number;
  readonly from: number;
  readonly to: number;
  /** In order; empty when there is none. */
  readonly intervals: readonly EmbedmentInterval[];
  /**
   * The embedment with the largest margin; where there is no interval, the nearest miss. Null where
   * the mode is nowhere given.
   */
  readonly best: EmbedmentPoint | null;
  /** All embedments looked at, in order: margin over embedment, ready to be drawn. */
  readonly line: readonly EmbedmentPoint[];
  readonly unjudged: readonly string[];
  readonly reading: string;
}

const FIRST_LOOK = 241;
const CLOSER_LOOK = 17;

/**
 * Which embedments let a wanted mode govern with everything else (other modes, rupture, yield, the
 * grip's limit) at least `above` beyond it. The margin need not rise or fall all along: the whole
 * range is scanned, every peak and dip looked at more closely, and each end found by dividing its
 * bracket until the numbers run out (relative 1e-15).
 *
 * Loads are point predictions at the level asked for; scatter of either can turn the order round.
 * An end says what meets there: another mode, a limit of the provision, a jump of the code, the end
 * of the range.
 * @throws RangeError for a range or a margin that makes no sense
 * @example
 * embedmentForMode(code("aci318-19"), tests, 0, "concrete_breakout", { above: 0.25, gripLoad_N: 120e3 }).reading
 */
export function embedmentForMode(
  codes: CodeDefinition | readonly CodeDefinition[],
  tests: TestColumns,
  i: number,
  mode: FailureMode,
  settings: EmbedmentSettings = {},
): EmbedmentForMode {
  const { above = 0 } = settings;
  const { from, to } = rangeOf(tests, i, settings);
  if (!(above > -1) || !(from > 0 && to > from))
    throw new RangeError(
      `embedmentForMode: a margin of ${above} over ${from} to ${to} mm, expected a margin above -1 and a range of positive lengths`,
    );
  const unjudged = new Set<string>();
  const look = (embedments: readonly number[]): EmbedmentPoint[] => {
    // One embedment alone would be folded into the formulas and compiled anew each time.
    const margins = modeMargins(
      codes,
      tests,
      i,
      mode,
      { embedment_mm: Float64Array.from(embedments) },
      embedments.length,
      settings,
    );
    margins.unjudged.forEach((one) => unjudged.add(one));
    return embedments.map((embedment, k) =>
      point(margins, embedment, k, settings.beyondLimits === true),
    );
  };
  const counts = (one: EmbedmentPoint): boolean => one.withheld === "" && one.margin >= above;
  let line = look(between(from, to, FIRST_LOOK));
  for (let pass = 0; pass < 4; pass++) line = withTurns(line, look);
  const ends: { at: EmbedmentPoint; because: string }[] = [];
  if (line[0] && counts(line[0]))
    ends.push({ at: line[0], because: "start of the range looked at" });
  line.slice(1).forEach((next, k) => {
    const before = line[k] as EmbedmentPoint;
    if (counts(before) === counts(next)) return;
    const [low, high] = narrowed(before, next, look, counts);
    ends.push(
      counts(low)
        ? { at: low, because: because(low, high, above) }
        : { at: high, because: because(high, low, above) },
    );
  });
  const last = line.at(-1);
  if (last && counts(last)) ends.push({ at: last, because: "end of the range looked at" });
  const intervals: EmbedmentInterval[] = [];
  for (let k = 0; k + 1 < ends.length; k += 2)
    intervals.push({
      from: ends[k]!.at.embedment,
      to: ends[k + 1]!.at.embedment,
      fromBecause: ends[k]!.because,
      toBecause: ends[k + 1]!.because,
    });
  const best = line
    .filter(({ withheld }) => withheld === "")
    .reduce<EmbedmentPoint | null>((a, b) => (a === null || b.margin > a.margin ? b : a), null);
  const answer = { mode, above, from, to, intervals, best, line, unjudged: [...unjudged] };
  return {
    ...answer,
    reading: reading(
      answer,
      setupAllows(tests.texts("setup")[i] ?? null, mode)
        ? ""
        : `a test by ${tests.texts("setup")[i] ?? "an unknown setup"} cannot fail in that mode`,
    ),
  };
}

function rangeOf(
  tests: TestColumns,
  i: number,
  { from, to }: EmbedmentSettings,
): { from: number; to: number } {
  const number = (column: string): number =>
    tests.has(column) ? (tests.numbers(column)[i] ?? NaN) : NaN;
  const [diameter, thickness] = [number("bar_diameter_mm"), number("member_thickness_mm")];
  return {
    from: from ?? 2 * diameter,
    to: to ?? Math.min(30 * diameter, Number.isNaN(thickness) ? Infinity : thickness),
  };
}

function point(
  margins: ModeMargins,
  embedment: number,
  k: number,
  beyondLimits: boolean,
): EmbedmentPoint {
  const source = margins.wantedLoads.find(({ load }) => load[k] === margins.wanted[k])?.source;
  const first = source ?? margins.wantedLoads[0]?.source;
  const reasons = first ? reasonsAt(first.prediction, first.column, k) : [];
  const counted = source && beyondLimits ? [] : reasons;
  const withheld =
    Number.isNaN(margins.wanted[k]!) && counted.length === 0
      ? "no provision gives that mode"
      : counted.map(({ clause, says }) => `${clause}: ${says}`).join("; ");
  return {
    embedment,
    wanted_N: margins.wanted[k]!,
    rival: margins.rivals[margins.rivalIndex[k]!]?.label ?? null,
    rival_N: margins.rival[k]!,
    margin: margins.margin[k]!,
    withheld,
  };
}

/** Equal ratios from one length to another, both included. */
function between(from: number, to: number, count: number): number[] {
  return Array.from({ length: count }, (_, k) =>
    k === 0 ? from : k === count - 1 ? to : from * (to / from) ** (k / (count - 1)),
  );
}

/**
 * Points added about every peak and dip of the margin, so that a narrow interval or gap between two
 * points is not missed.
 */
function withTurns(
  line: readonly EmbedmentPoint[],
  look: (embedments: readonly number[]) => EmbedmentPoint[],
): EmbedmentPoint[] {
  const added = line.slice(1, -1).flatMap((one, k) => {
    const [before, after] = [line[k] as EmbedmentPoint, line[k + 2] as EmbedmentPoint];
    const turns = (one.margin - before.margin) * (after.margin - one.margin) < 0;
    return turns && after.embedment / before.embedment > 1 + 1e-9
      ? between(before.embedment, after.embedment, CLOSER_LOOK).slice(1, -1)
      : [];
  });
  if (added.length === 0) return [...line];
  const known = new Set(line.map(({ embedment }) => embedment));
  return [...line, ...look([...new Set(added)].filter((embedment) => !known.has(embedment)))].sort(
    (a, b) => a.embedment - b.embedment,
  );
}

/**
 * Divides a bracket between an embedment that counts and one that does not until they are
 * neighbours.
 */
function narrowed(
  low: EmbedmentPoint,
  high: EmbedmentPoint,
  look: (embedments: readonly number[]) => EmbedmentPoint[],
  counts: (one: EmbedmentPoint) => boolean,
): [EmbedmentPoint, EmbedmentPoint] {
  let [a, b] = [low, high];
  while (b.embedment - a.embedment > 1e-15 * b.embedment) {
    const [start, end] = [a.embedment, b.embedment];
    const inner = [...new Set(between(start, end, CLOSER_LOOK).slice(1, -1))].filter(
      (x) => x > start && x < end,
    );
    if (inner.length === 0) break;
    const line = [a, ...look(inner), b];
    const k = line.findIndex((one) => counts(one) !== counts(low));
    [a, b] = [line[k - 1] as EmbedmentPoint, line[k] as EmbedmentPoint];
  }
  return [a, b];
}

/** What ends an interval between its last embedment and the neighbour outside it. */
function because(inside: EmbedmentPoint, outside: EmbedmentPoint, above: number): string {
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

function reading(
  { mode, above, from, to, intervals, best, line, unjudged }: Omit<EmbedmentForMode, "reading">,
  barred: string,
): string {
  const mm = (length: number): string => `${Number(length.toPrecision(4))} mm`;
  const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
  const name = mode.replaceAll("_", " ");
  const wanted =
    above === 0
      ? `${name} as the least load`
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
    ? `${none} another load comes first everywhere. The nearest miss is ${mm(best.embedment)}, where ${rival} is ${percent(-best.margin)} below it.${blind}`
    : `${none} the margin is nowhere so large. The nearest miss is ${mm(best.embedment)}, where ${rival} is ${percent(best.margin)} above it.${blind}`;
}
