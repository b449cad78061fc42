import type { TestColumns } from "../inputs/prepare";
import type { CodeDefinition } from "../model/definition";
import type { FailureMode } from "../model/levels";
import { reasonsAt } from "../model/reasons";
import { setupAllows } from "../model/setup-modes";
import { modeMargins, type ModeMargins } from "./margin-of-mode";
import type {
  EmbedmentSettings,
  EmbedmentForMode,
  EmbedmentPoint,
  EmbedmentInterval,
} from "./embedment-interval";
import { between, withTurns, narrowed } from "./embedment-search";
import { because, reading } from "./embedment-reading";

const FIRST_LOOK = 241;

/**
 * Which embedments let a wanted mode govern with everything else (other modes, rupture, yield, the
 * grip's limit) at least `above` beyond it. The margin need not rise or fall all along: the whole
 * range is scanned, every peak and dip looked at more closely, and each end found by dividing its
 * bracket until the numbers run out (relative 1e-15).
 *
 * Loads are point predictions at the level asked for; scatter of either can reverse the order.
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
    ends.push({ at: line[0], because: "start of the range examined" });
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
  if (last && counts(last)) ends.push({ at: last, because: "end of the range examined" });
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
      ? "no provision covers that mode"
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
