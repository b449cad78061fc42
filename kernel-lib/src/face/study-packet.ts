import { compare, groupRatios, type Comparison, type RatioGroup } from "../comparison";
import { exclusions, type Invented } from "../dataset";
import { draftText, type Draft } from "../exports/draft";
import { handCheckWorkbook, handChecksOf, typicalEvidence } from "../exports/workbook";
import { packetOf, type PacketModel } from "../exports/packet";
import { caution, colophon } from "./colophon";
import type { Study } from "./open-study";
import { beforeAfter, dumbbellsOf, predictedTestsOf, ratioStrip, stripGroupsOf, testAgainstPredicted, type Figure } from "../figures";
import { factorCase, type FactorCase } from "../proposals";
import { code, type CodeDefinition } from "../provisions";
import { beforeAfterTable, factorTable, ratioGroupTable, Table } from "../tables";

const QUESTION = { fractile: 0.05, confidence: 0.9 } as const;
const LEVEL = "nominal";

/** The packet of the standard study and the workbook to check it by hand. */
export interface StudyPacket {
  readonly model: PacketModel;
  readonly workbook: Uint8Array;
}

/** What a notebook has already: the case, and the drafts as the researcher left them. */
export interface StudyPacketSettings {
  readonly found?: FactorCase;
  readonly drafts?: readonly Draft[];
}

/** Runs the standard study: compare, derive factors, propose, compare again. */
export function studyPacket(study: Study, settings: StudyPacketSettings = {}): StudyPacket {
  const { tests, studies } = study.data;
  const present = code("aci318-19");
  const all = compare(tests, present, { level: LEVEL });
  // Judged by anchors free to fail; the whole table still says which tests gave no ratio, and why.
  const { comparison, groups, factors, proposals, change } = settings.found ?? factorCase(tests, present, { level: LEVEL, ...QUESTION });
  const drafts = settings.drafts ?? proposals.map((proposal) => draftText(proposal, { code: present, change, question: QUESTION, caution }));
  const { invented } = study;
  const notes = invented !== false ? ["Contains invented demonstration data."] : [];
  const model = packetOf({
    title: `FRP bars as anchors under ${named(present)}: proposed factors`, caution, studies, comparison: all, groups, factors, proposals, drafts, change, question: QUESTION,
    figures: figuresOf(comparison, groups, present, invented),
    tables: [
      ratioGroupTable(groups, { id: "ratios-by-mode-and-material", title: `Test-to-predicted ratios by mode and material, ${named(present)}, ${LEVEL} level`, notes }),
      factorTable(factors, { id: "derived-factors", title: "Factors that bring the characteristic ratio to 1, FRP bars", notes: ["95 % interval: bootstrap by whole series.", "Least without a study: the factor where the study on which it leans most is left out. Warnings on single factors: section \"Limits and cautions\".", ...notes] }, { warnings: false }),
    ],
    beforeAfter: {
      table: beforeAfterTable(change, { id: "before-after", title: "Characteristic ratio with the present and the proposed provision", notes }),
      figure: beforeAfter({ id: "before-after-dumbbells", title: "Characteristic ratio before and after", subtitle: `${named(present)} with the proposed factors`, measure: "Characteristic test-to-predicted ratio (–)", invented, caption: "5 % fractile at 90 % confidence, counted by series. Steel is not changed.", groups: dumbbellsOf(change) }),
    },
    excluded: new Table({
      id: "excluded-tests", title: "Tests left out, with reasons", rowKey: ["test_id"],
      columns: [{ key: "test_id", title: "test", kind: "text" }, { key: "study_id", title: "study", kind: "text" }, { key: "reason", title: "reason", kind: "text" }],
      rows: exclusions(tests).map(({ test_id, study_id, reason }) => ({ test_id, study_id, reason })),
    }),
    colophon: colophon(study),
  });
  const workbook = handCheckWorkbook({ title: `Hand check: ${present.title} (${present.edition})`, caution, checks: handChecksOf(comparison, typicalEvidence(groups)), groups: { comparison, of: groups, ...QUESTION } });
  return { model, workbook };
}

/** A code as a reader calls it: its title up to the first comma. */
function named({ title, id }: CodeDefinition): string {
  return title.split(",")[0] ?? id;
}

function figuresOf(comparison: Comparison, groups: readonly RatioGroup[], present: CodeDefinition, invented: Invented): Figure[] {
  const subtitle = `${named(present)}, ${LEVEL} level`;
  const strips = ratioStrip({ id: "ratio-strips", title: "Test-to-predicted ratios by mode and material", subtitle, invented, caption: "Open triangles: lower bounds. Characteristic: 5 % fractile at 90 % confidence, counted by series.", groups: stripGroupsOf(groups.filter(({ n }) => n >= 3)) });
  const bond = comparison.evidence.filter(({ mode }) => mode === "bond");
  const whole = groupRatios({ ...comparison, evidence: bond }, ["mode"], QUESTION)[0];
  if (!whole) return [strips];
  const scatter = testAgainstPredicted({ id: "bond-test-against-predicted", title: "Bond: peak load against predicted capacity", subtitle, invented, caption: `Characteristic ratio of all bond tests: ${whole.lower?.toFixed(3) ?? "cannot tell"}.`, tests: predictedTestsOf(comparison, "bar_material", bond), characteristicRatio: whole.lower ?? NaN });
  return [strips, scatter];
}
