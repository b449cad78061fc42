import type { TrendByGroup } from "./trend";

/** One group against another at one value of the variable, from the model of `ancova`. */
export interface TrendGap {
  readonly first: string;
  readonly second: string;
  readonly x: number;
  /** Whether the value lies beyond the tests of one of the groups. */
  readonly extrapolated: boolean;
  /** First over second on the log scale, else first less second, with its two-sided interval. */
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}

/**
 * The gaps between the groups of each family at the values asked for.
 * @example trendGaps(trend)
 */
export function trendGaps({ families, lines, question }: TrendByGroup): TrendGap[] {
  const beyond = (group: string, x: number): boolean => {
    const line = lines.find((one) => one.group === group)!;
    return x < line.from || x > line.to;
  };
  return families.flatMap(({ model }) =>
    (model?.slopeDifferences ?? []).flatMap(({ first, second }) =>
      question.at.map((x): TrendGap => {
        const gap = model!.gapAt(first, second, x);
        const { estimate, lower, upper } = gap.ratio ?? gap;
        const extrapolated = beyond(first, x) || beyond(second, x);
        return { first, second, x, extrapolated, estimate, lower, upper };
      }),
    ),
  );
}
