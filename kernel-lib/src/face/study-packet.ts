import {
  compare,
  groupRatios,
  rejectedOnReading,
  type Comparison,
  type RatioGroup,
} from "../comparison";
import { exclusions, type Invented, type TestTable } from "../dataset";
import type { DocumentModel } from "../exports/document";
import { draftText, type Draft } from "../exports/draft";
import {
  factorsOfChange,
  handCheckWorkbook,
  handChecksOf,
  typicalEvidence,
} from "../exports/workbook";
import { packetOf } from "../exports/packet/packet-of";
import { caution, colophon, type StudyData } from "./colophon";
import { LEVEL, QUESTION } from "./packet-question";
import {
  beforeAfter,
  dumbbellsOf,
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
import { factorCase, groupReliability, groupStandings, type FactorCase } from "../proposals";
import { code, type CodeDefinition } from "../provisions";
import {
  beforeAfterTable,
  cellTable,
  leftOutTable,
  ratioGroupTable,
  steelPairTable,
  Table,
} from "../tables";

/** The packet of the standard study and the workbook to check it by hand. */
export interface StudyPacket {
  readonly model: DocumentModel;
  readonly workbook: Uint8Array;
  /** The case behind it, of which the ballot is made. */
  readonly found: Pick<FactorCase, "tests" | "present" | "proposals" | "factors">;
}

/** What a notebook has already: the case, and the drafts as the researcher left them. */
export interface StudyPacketSettings {
  readonly found?: FactorCase;
  readonly drafts?: readonly Draft[];
  /** The tests looked at, where they are not all of the study's. */
  readonly tests?: TestTable;
  /** ACI 318-19, or the same with other values of its options. */
  readonly present?: CodeDefinition;
  /** Rows and options chosen, in words that the title prints; none for all rows. */
  readonly asked?: string;
}

/** Runs the standard study: compare, derive factors, propose, compare again. */
export function studyPacket(study: StudyData, settings: StudyPacketSettings = {}): StudyPacket {
  const { studies } = study.data;
  const tests = settings.tests ?? study.data.tests;
  const present = settings.present ?? code("aci318-19");
  const all = compare(tests, present, { level: LEVEL });
  // The case looks at the modes studied; the account of rows is that of all modes.
  const { comparison, groups, factors, proposals, change } =
    settings.found ?? factorCase(tests, present, { level: LEVEL, ...QUESTION });
  const drafts =
    settings.drafts ??
    proposals.map((proposal) =>
      draftText(proposal, { code: present, change, tests, question: QUESTION, caution }),
    );
  const { invented } = study;
  const notes = invented !== false ? ["Contains invented demonstration data."] : [];
  const cells = cellTable(groups, {
    id: "cells",
    title: "Cells of the groups whose mean ratio differs",
    notes,
  });
  const pairs = steelPairTable(factors, {
    id: "steel-pairs",
    title: "Cells in which steel and FRP bars were both tested",
    notes,
  });
  const leftOut = factors.flatMap(({ label, rounded, leftOut: parts }) =>
    rounded === null || parts.length === 0 ? [] : [{ label, proposed: rounded, leftOut: parts }],
  );
  const model = packetOf({
    title: `FRP bars as anchors under ${named(present)}: proposed factors${settings.asked ?? ""}`,
    caution,
    studies,
    comparison: all,
    groups,
    factors,
    proposals,
    drafts,
    change,
    question: QUESTION,
    figures: figuresOf(comparison, groups, present, invented),
    tables: [
      ratioGroupTable(
        groups,
        {
          id: "ratios-by-mode-and-material",
          title: `Test-to-predicted ratios by mode and material, ${named(present)}, ${LEVEL} level`,
          notes,
        },
        "moments",
      ),
      ratioGroupTable(
        groups,
        {
          id: "verdicts-by-mode-and-material",
          title: `Verdicts by mode and material, ${named(present)}, ${LEVEL} level`,
          notes,
        },
        "verdicts",
      ),
      ...(cells.rows.length > 0 ? [cells] : []),
      ...(pairs.rows.length > 0 ? [pairs] : []),
      ...(leftOut.length > 0
        ? [
            leftOutTable(leftOut, {
              id: "left-out",
              title: "Factors without each study and each laboratory",
              notes,
            }),
          ]
        : []),
    ],
    beforeAfter: {
      table: beforeAfterTable(change, {
        id: "before-after",
        title: "Characteristic ratio r_k with the present and the proposed provision",
        notes,
      }),
      figure: beforeAfter({
        id: "before-after-dumbbells",
        title: "Characteristic ratio before and after",
        subtitle: `${named(present)} with the proposed factors`,
        measure: "5 % fractile of test/predicted: lower bound (mark) to upper bound (–)",
        invented,
        caption:
          "In general: for a further series, series effect included; each bound one-sided at 90 % confidence. Steel is not changed.",
        groups: dumbbellsOf(change),
      }),
    },
    excluded: new Table({
      id: "excluded-tests",
      title: "Excluded tests, with reasons",
      rowKey: ["test_id"],
      columns: [
        { key: "test_id", title: "test", kind: "text" },
        { key: "study_id", title: "study", kind: "text" },
        { key: "reason", title: "reason", kind: "text" },
      ],
      rows: exclusions(tests).map(({ test_id, study_id, reason }) => ({
        test_id,
        study_id,
        reason,
      })),
    }),
    standings: groupStandings(change, groupReliability(tests, present), { factors }),
    rejected: rejectedOnReading(study.data.rejected),
    colophon: colophon(study),
  });
  const workbook = handCheckWorkbook({
    title: `Hand check: ${present.title} (${present.edition})`,
    caution,
    checks: handChecksOf(comparison, typicalEvidence(groups), factorsOfChange(change)),
    groups: { comparison, of: groups, ...QUESTION },
  });
  return { model, workbook, found: { tests, present, proposals, factors } };
}

/** A code as a reader calls it: its title up to the first comma. */
function named({ title, id }: CodeDefinition): string {
  return title.split(",")[0] ?? id;
}

function figuresOf(
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
      "5 % fractile of test/predicted, estimate and one-sided bounds at 90 % confidence. As tested: series effect ignored. In general: for a further series, series effect included, in the deciding cell. Meets: lower bound at least 1.0; falls short: upper bound below 1.0.",
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

/** What the probability plot of a group's residuals shows, with both distributions' tests of fit. */
function fitCaption({
  distribution,
  verdict,
  inGeneral: { residualFit, otherDistribution },
}: RatioGroup): string {
  const p = (value: number | null): string => value?.toFixed(3) ?? "not tested";
  return `Normal probability plot of the failures about the means of their cells, ${distribution} distribution. Shapiro-Wilk test of fit: p = ${p(residualFit.normal)} (normal), ${p(residualFit.lognormal)} (lognormal); tests of a series are correlated, so these p-values are a guide. Verdict in general: ${verdict} (${distribution}), ${otherDistribution?.verdict ?? verdict} (${otherDistribution?.distribution ?? distribution}).`;
}
