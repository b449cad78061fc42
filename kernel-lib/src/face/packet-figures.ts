import { groupRatios, type Comparison, type RatioGroup } from "../comparison";
import type { Invented } from "../dataset";
import {
  fractiles,
  fractilesOf,
  predictedTestsOf,
  qq,
  ratioStrip,
  residualsOf,
  stripGroupsOf,
  testAgainstPredicted,
  type Figure,
} from "../figures";
import type { CodeDefinition } from "../provisions";
import { LEVEL, QUESTION } from "./packet-question";

/** A code as a reader calls it: its title up to the first comma. */
export function named({ title, id }: CodeDefinition): string {
  return title.split(",")[0] ?? id;
}

/** The figures of the evidence. */
export function figuresOf(
  comparison: Comparison,
  groups: readonly RatioGroup[],
  present: CodeDefinition,
  invented: Invented,
): Figure[] {
  const subtitle = `${named(present)}, ${LEVEL} level`;
  const bounds =
    "5 % fractile in general (series effect included) with its one-sided bounds at 90 % confidence";
  const shown = groups.filter(({ n }) => n >= 3);
  const strips = ratioStrip({
    id: "ratio-strips",
    title: "Test-to-predicted ratios by mode and material",
    subtitle,
    invented,
    caption: `Open triangles: lower bounds of tests. Diamond: ${bounds}.`,
    groups: stripGroupsOf(shown),
  });
  const both = fractiles({
    id: "fractiles",
    title: "As tested and in general",
    subtitle,
    invented,
    caption:
      "5 % fractile of test/predicted, estimate and one-sided bounds at 90 % confidence. As tested: series effect ignored. In general: for a further series, series effect included, in the cell that decides. Meets: lower bound at least 1.0; falls short: upper bound below 1.0.",
    groups: fractilesOf(shown),
  });
  // Where the choice of the distribution decides, the reader sees how well it fits.
  const plots = groups
    .filter(({ inGeneral }) => inGeneral.otherDistribution !== null)
    .map((group) =>
      qq({
        id: `residuals-${group.label.toLowerCase().replace(/[^a-z0-9]+/g, "-")}`,
        title: `Residuals about the cell means: ${group.label}`,
        subtitle,
        invented,
        caption: fitCaption(group),
        ...residualsOf(comparison, group),
      }),
    );
  const bond = comparison.evidence.filter(({ mode }) => mode === "bond");
  const whole = groupRatios({ ...comparison, evidence: bond }, ["mode"], QUESTION)[0];
  if (!whole) return [both, strips, ...plots];
  const scatter = testAgainstPredicted({
    id: "bond-test-against-predicted",
    title: "Bond: peak load against predicted capacity",
    subtitle,
    invented,
    caption: `Line: characteristic ratio of all bond tests in general, ${whole.lower?.toFixed(3) ?? "not estimated"}.`,
    tests: predictedTestsOf(comparison, "bar_material", bond),
    characteristicRatio: whole.lower ?? NaN,
  });
  return [both, strips, scatter, ...plots];
}

/**
 * What the probability plot of a group's residuals shows, with the tests of fit of both
 * distributions.
 */
function fitCaption({
  distribution,
  verdict,
  inGeneral: { residualFit, otherDistribution },
}: RatioGroup): string {
  const p = (value: number | null): string => value?.toFixed(3) ?? "not tested";
  return `Normal probability plot of the failures about the means of their cells, ${distribution} distribution. Shapiro-Wilk test of fit: p = ${p(residualFit.normal)} (normal), ${p(residualFit.lognormal)} (lognormal); tests of a series are correlated, so these p-values are a guide. Verdict in general: ${verdict} (${distribution}), ${otherDistribution?.verdict ?? verdict} (${otherDistribution?.distribution ?? distribution}).`;
}
