import { differenceReading } from "../statistics/comparison/difference-words";
import { counted } from "../statistics/reading";
import type { ClassStratum } from "./class-strata";
import { capitalised, labelWords, valueWords } from "./labels";
import { halfWidth, type ModeDifference } from "./mode-difference";

/** What the words of a comparison count. */
interface ComparedCounts {
  readonly within: ClassStratum["within"];
  readonly reference: string;
  readonly other: string;
  readonly lowerBounds: readonly [reference: number, other: number];
  readonly failedSeries: readonly [reference: number, other: number];
}

/** The columns in which compared ratios agree, in words. */
export function labelsOf(within: ClassStratum["within"]): string[] {
  return Object.entries(within).map(([column, value]) => labelWords(column, value));
}

/** "median bond ratio", and what stands before the sentence: "Size 16, adhesive P: ". */
export function quantityOf({ mode, ...rest }: ClassStratum["within"]): {
  readonly quantity: string;
  readonly prefix: string;
} {
  const labels = labelsOf(rest);
  return {
    quantity: mode === undefined ? "median ratio" : `median ${valueWords(mode)} ratio`,
    prefix: labels.length === 0 ? "" : `${capitalised(labels.join(", "))}: `,
  };
}

/** The finding of one comparison in words, with what it rests on. */
export function readingOf(
  found: ModeDifference,
  counts: ComparedCounts,
  p: number,
  comparisons: number,
  confidence: number,
): string {
  const significant = p < 1 - confidence;
  const joint = !significant && comparisons > 1;
  // A finding has its own interval; otherwise the joint one, which then holds no difference as
  // well.
  const shown = joint ? 1 - (1 - confidence) / comparisons : confidence;
  const half = halfWidth(found, shown);
  const [lower, upper] = [found.estimate - half, found.estimate + half];
  const lowerBounds = counts.lowerBounds[0] + counts.lowerBounds[1];
  const sentence = differenceReading({
    quantity: quantityOf(counts.within).quantity,
    nameA: valueWords(counts.reference),
    nameB: valueWords(counts.other),
    difference: found.estimate,
    lower,
    upper,
    ratio: Math.exp(found.estimate),
    ratioInterval: { bounded: true, lower: Math.exp(lower), upper: Math.exp(upper) },
    confidence,
    p,
    comparisons,
    joint,
    methodWords: `${found.method}${lowerBounds === 0 ? "" : `, ${counted(lowerBounds, "lower bound")}`}`,
  });
  const effect =
    found.seriesEffect === "included"
      ? `Series effect included (${counts.failedSeries.join(" and ")} series with a failure; the same scatter assumed in both classes).`
      : `Series effect ignored: ${found.reason ?? ""}. This assumes independent tests; where series differ, p is too small and the interval too narrow.`;
  return [sentence, effect, ...found.cautions.map((one) => `Caution: ${one}.`)].join(" ");
}
