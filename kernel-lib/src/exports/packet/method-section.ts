import type { Section } from "../document/document";
import type { PacketResults } from "./packet-results";
import { percent } from "./packet-words";

/** How ratios, bounds and factors were found, in plain words. */
export function methodSection(results: PacketResults): Section {
  const { comparison, question, groups, proposals } = results;
  const level = percent(question.confidence);
  const lognormal = groups[0]?.distribution === "lognormal";
  return {
    id: "methods",
    title: "Methods in plain words",
    blocks: [
      {
        kind: "list",
        items: [
          `Each test is compared with the capacity of the mode ${comparison.capacityOf === "governing mode" ? "that governs" : "in which it failed"}, at the ${comparison.prediction.level} level: the code's characteristic value ${comparison.prediction.level === "design" ? "with" : "before"} its strength reduction.`,
          `The ${percent(question.fractile)} fractile of the ratios is given as a median estimate with a lower and an upper one-sided bound, each at ${level} confidence. The lower bound is the characteristic ratio r_k. Meets: r_k at least 1.0. Falls short: upper bound below 1.0. Undecided: neither.`,
          `As tested: for the bars, concretes and adhesives of the series tested, series effect ignored; mean − K × standard deviation${lognormal ? " of the logarithms" : ""}, K from the noncentral t distribution.`,
          "In general: for a further series, series effect included. Tests of one series share concrete, adhesive and day and are correlated, so the effective sample size is smaller. At least 3 series that failed in the mode are needed. Where the mean ratio differs with layout or another column, each such cell has a mean of its own, with one scatter within and between series for all cells; the group's verdict is that of its worst cell. The bounds are an approximate Bayesian mixture over the intraclass correlation.",
          "Lower bounds are treated as right-censored: mean and scatter come from maximum likelihood, and no single K exists.",
          `A factor is the lower bound at ${level} confidence by its criterion, rounded down to a step of 0.05 and not above 1. Fractile: the lower bound of the ${percent(question.fractile)} fractile in general is 1.0. As steel: FRP bars get what the present provision gives steel bars, from cells in which both were tested. Reliability: a target index is reached at the code's own strength reduction. A reduction is supported by its own tests where the upper bound by the criterion is below 1.0.`,
          ...(proposals.length > 0
            ? [
                "Factors are derived and judged on the same tests, which flatters them: each is therefore also derived without each study and each laboratory in turn and judged on what was left out.",
              ]
            : []),
          "A group with too few tests or series has no verdict in general, and nothing is proposed for it.",
          "The statistical model, its measured error rates, limits and sources are in the project's methods document, kernel-lib/docs/methods.md.",
          "Each capacity can be followed by hand in the workbook hand-check.xlsx, where every step is a live formula; so can the verdict as tested. The sheet 'Series' follows the bounds in general, from the mean squares between and within series; the library averages over the intraclass correlation, and the sheet shows the difference.",
        ],
      },
    ],
  };
}
