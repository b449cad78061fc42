import { testsOfGroup, type Comparison, type Evidence, type RatioGroup } from "../../comparison";
import { boundsAsTested } from "../../comparison/judging/as-tested";
import { boundsInGeneral } from "../../comparison/judging/in-general";
import { statedCells } from "../../comparison/judging/cells";
import { keyReader } from "../../comparison/group-keys";
import { labelWords } from "../../comparison/labels";
import { generalisedEsd } from "../../statistics";
import { asSteel } from "./as-steel";
import type { Criterion } from "./criterion";

/** The factor under one set of choices. */
export interface ChoiceOutcome {
  readonly estimate: number;
  readonly choices: Readonly<Record<string, string>>;
  /** Whether these are the choices of the reported analysis. */
  readonly reported: boolean;
  readonly n: number;
  /** Whether the proposed factor is no larger than this one. */
  readonly adequate: boolean;
}

/** Every reasonable analysis of the same tests. */
export interface ReasonableChoices {
  readonly label: string;
  readonly proposed: number;
  readonly analyses: readonly ChoiceOutcome[];
  /** Sets of choices that give no factor, with the reason. */
  readonly unanswered: readonly {
    readonly choices: Readonly<Record<string, string>>;
    readonly reason: string;
  }[];
  readonly reading: string;
}

const CONFIDENCES = [0.75, 0.9, 0.95] as const;

/** A group whose factor is looked at, with the evidence of steel in its mode. */
export interface ChoicesInput {
  readonly comparison: Comparison;
  readonly group: RatioGroup;
  readonly steel: readonly Evidence[];
  readonly criterion: Criterion;
  readonly proposed: number;
  readonly fractile: number;
  readonly confidence: number;
}

/**
 * The factor under every combination of the choices a reasonable analyst makes: confidence,
 * outliers (generalised ESD on ln ratio) kept or left out, lower bounds used or left out, and by
 * the fractile criterion also the distribution and the series effect included or ignored. The
 * reported analysis is marked; none is preferred after the fact.
 * @throws RangeError for the reliability criterion, whose choices are those of notebook 7
 */
export function reasonableChoices(input: ChoicesInput): ReasonableChoices {
  const { group, criterion, proposed, confidence } = input;
  if (criterion === "reliability")
    throw new RangeError(
      "reasonableChoices: the criterion is reliability, expected fractile or as steel",
    );
  const analyses: ChoiceOutcome[] = [];
  const unanswered: { choices: Record<string, string>; reason: string }[] = [];
  const hasBounds = group.lowerBounds > 0;
  for (const outliers of ["kept", "left out"] as const)
    for (const bounds of hasBounds ? (["used", "left out"] as const) : (["used"] as const))
      for (const level of CONFIDENCES) {
        const evidence = chosen(group.evidence, outliers, bounds);
        const n = evidence.filter(({ bound }) => !bound).length;
        const shared = {
          Confidence: `${100 * level} %`,
          Outliers: outliers,
          ...(hasBounds ? { "Lower bounds": bounds } : {}),
        };
        const usual = outliers === "kept" && bounds === "used" && level === confidence;
        const variants =
          criterion === "as steel"
            ? [
                {
                  choices: shared,
                  reported: usual,
                  factor: () => ofSteel(input, evidence, outliers, bounds, level),
                },
              ]
            : fractileVariants(input, evidence, level, shared, usual);
        for (const { choices, reported, factor } of variants) {
          const found = factor();
          if (typeof found === "string") unanswered.push({ choices, reason: found });
          else
            analyses.push({
              estimate: found,
              choices,
              reported,
              n,
              adequate: proposed <= found + 1e-12,
            });
        }
      }
  const adequate = analyses.filter((one) => one.adequate).length;
  const estimates = analyses.map(({ estimate }) => estimate);
  const reading =
    analyses.length === 0
      ? `No analysis gives a factor: ${unanswered[0]?.reason ?? "no tests"}.`
      : `The factor ${proposed.toFixed(2)} does not exceed the factor from ${adequate} of ${analyses.length} reasonable analyses (${Math.min(...estimates).toFixed(2)} to ${Math.max(...estimates).toFixed(2)})${unanswered.length > 0 ? `; ${unanswered.length} give none` : ""}.`;
  return { label: group.label, proposed, analyses, unanswered, reading };
}

interface Variant {
  readonly choices: Record<string, string>;
  readonly reported: boolean;
  readonly factor: () => number | string;
}

function chosen(
  evidence: readonly Evidence[],
  outliers: "kept" | "left out",
  bounds: "used" | "left out",
): Evidence[] {
  const kept = bounds === "used" ? [...evidence] : evidence.filter(({ bound }) => !bound);
  if (outliers === "kept") return kept;
  const failed = kept.filter(({ bound }) => !bound);
  const found = generalisedEsd(failed.map(({ ratio }) => Math.log(ratio)));
  if (found.status !== "ok") return kept;
  const flagged = new Set(found.flagged.map(({ index }) => failed[index]));
  return kept.filter((one) => !flagged.has(one));
}

function ofSteel(
  { comparison, steel, fractile }: ChoicesInput,
  evidence: readonly Evidence[],
  outliers: "kept" | "left out",
  bounds: "used" | "left out",
  confidence: number,
): number | string {
  const found = asSteel(comparison, evidence, chosen(steel, outliers, bounds), {
    fractile,
    confidence,
  });
  return found.factor ?? found.basis;
}

function fractileVariants(
  { comparison, group, fractile, confidence: usualConfidence }: ChoicesInput,
  evidence: readonly Evidence[],
  confidence: number,
  shared: Record<string, string>,
  usual: boolean,
): Variant[] {
  const { tests } = testsOfGroup(evidence, comparison.tests);
  const of = new Map(evidence.map((one) => [one.row, one]));
  const columns = group.inGeneral.cellColumns.map((name) => {
    const read = keyReader(comparison, [name]);
    return {
      name,
      valueOf: (row: number): string => labelWords(name, read(of.get(row)!)[0] ?? null),
    };
  });
  return (["included", "ignored"] as const).flatMap((effect) =>
    (["normal", "lognormal"] as const).map((distribution): Variant => ({
      choices: { "Series effect": effect, Distribution: distribution, ...shared },
      reported:
        usual &&
        confidence === usualConfidence &&
        effect === "included" &&
        distribution === group.distribution,
      factor: () => {
        const question = { fractile, confidence, distribution, target: 1 };
        if (effect === "ignored") {
          const found = boundsAsTested(tests, question);
          return "refusal" in found ? found.refusal : found.lower;
        }
        const found = boundsInGeneral(tests, statedCells(tests, columns), question);
        if (typeof found === "string") return found;
        const judged = found.cells.filter((one) => one.judged);
        return judged.length === 0
          ? "no cell has 3 series"
          : Math.min(...judged.map(({ lower }) => lower));
      },
    })),
  );
}
