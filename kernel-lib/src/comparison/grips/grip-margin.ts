import type { FailureMode } from "../../provisions";
import { percent, significant } from "../../statistics/reading";
import type { Comparison } from "../comparison";
import { capitalised, valueWords } from "../labels";
import { gripReaches, type GripReach } from "./grip-reach";
import type { GripStrength } from "./grip-result";
import type { GripStrengths } from "./grip-strength";
import { lognormalLaw, type LognormalLaw } from "./lognormal-law";

/** The margin that a grip needs over the mode under study, and what it allows. */
export interface GripMargin {
  readonly grip: GripStrength;
  readonly mode: FailureMode;
  /** Required grip load over predicted load: upper bound of the high fractile of the ratio. */
  readonly margin: number | null;
  /** Law of the test-to-predicted ratio of the mode; null where there is none. */
  readonly law: LognormalLaw | null;
  readonly reaches: readonly GripReach[];
  /** Why there is no answer; null where there is one. */
  readonly reason: string | null;
  readonly reading: string;
}

export interface GripMargins {
  readonly mode: FailureMode;
  /** One for each group of grips, in their order. */
  readonly margins: readonly GripMargin[];
}

/**
 * Which margin over the mode under study a grip needs, and the embedments it then allows.
 *
 * A specimen shows its mode where s A f_u >= M N: s the reliable share of bar strength of the grip
 * (at most 5 % of bars break below it, 90 % confidence), A and f_u area and measured strength of
 * the bar, N the predicted load of the mode, M the 95 % fractile of its test-to-predicted ratio
 * (upper bound, 90 % confidence; tests of the same bar material). A break in the grip then needs a
 * bar among the weakest 5 % in the grip or a specimen among the strongest 5 % in the mode: at most
 * 10 % of tests. Fractile and confidence are those of the strengths. Embedments: `gripReaches`.
 *
 * Limits: unconfined single bars away from edges; one law of the ratio for all sizes of a material,
 * which holds for sizes and embedments like those tested. Extrapolation is not marked.
 * @example gripMargins(gripStrengths(tests), compare(tests, code("aci318-19")), "bond").margins
 */
export function gripMargins(
  strengths: GripStrengths,
  comparison: Comparison,
  mode: FailureMode,
): GripMargins {
  return {
    mode,
    margins: strengths.groups.map((grip) => marginOf(grip, strengths, comparison, mode)),
  };
}

function marginOf(
  grip: GripStrength,
  { fractile, confidence }: GripStrengths,
  comparison: Comparison,
  mode: FailureMode,
): GripMargin {
  const { tests } = comparison;
  const materials = new Set(grip.tests.map(({ row }) => tests.text(row, "bar_material")));
  const own = comparison.evidence.filter(
    (one) =>
      one.mode === mode &&
      tests.text(one.row, "action") === "tension" &&
      materials.has(tests.text(one.row, "bar_material")),
  );
  const series = tests.texts("series_id");
  const ratios = own.map(({ ratio, bound, row }) => ({
    value: ratio,
    lowerBound: bound,
    series: series[row] ?? "",
  }));
  const law = lognormalLaw(ratios, { fractile, confidence });
  const label = `${capitalised(grip.label)}, ${valueWords(mode)}`;
  if (typeof law === "string" || grip.reliable === null) {
    const known = typeof law === "string" ? null : law;
    const reason = grip.reason ?? (typeof law === "string" ? law : "");
    const reading = `${label}: too few tests for a margin. ${capitalised(reason)}.`;
    return {
      grip,
      mode,
      margin: known?.high.bound ?? null,
      law: known,
      reaches: [],
      reason,
      reading,
    };
  }
  const { share } = grip.reliable;
  const margin = law.high.bound;
  const reaches = gripReaches(
    comparison,
    own.map(({ row }) => row),
    { mode, share, margin },
  );
  const effect =
    law.seriesEffect === "included" ? "series effect included" : "series effect ignored";
  const head =
    `${label}: the grip needs ${significant(margin)} times the predicted load (${percent(1 - fractile)} fractile, ` +
    `${percent(confidence)} confidence; ${law.failures} failures in ${law.series} series, ${effect})`;
  const reading =
    reaches.length === 0
      ? `${head}. No unconfined single bar away from edges to start from.`
      : `${head}. At ${significant(share)} of bar strength${grip.law === null ? " (shown so far)" : ""} that allows ` +
        `embedments: ${reaches.map(reachWords).join(", ")}.`;
  return { grip, mode, margin, law, reaches, reason: null, reading };
}

function reachWords({ size, embedment_mm, diameter_mm, beyond }: GripReach): string {
  if (embedment_mm === null) return `size ${size} none from 2 d`;
  return `size ${size} ${beyond ? "beyond" : "up to"} ${significant(embedment_mm / diameter_mm)} d`;
}
