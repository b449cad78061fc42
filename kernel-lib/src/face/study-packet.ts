import { compare, groupRatios, rejectedOnReading } from "../comparison";
import { exclusions, type TestTable } from "../dataset";
import type { DocumentModel } from "../exports/document";
import { draftText, type Draft } from "../exports/draft";
import {
  factorsOfChange,
  handCheckWorkbook,
  handChecksOf,
  typicalEvidence,
} from "../exports/workbook";
import type { PacketResults } from "../exports/packet/packet-results";
import { packetOf } from "../exports/packet/packet-of";
import { beforeAfter, dumbbellsOf } from "../figures";
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
import { caution, colophon, type StudyData } from "./colophon";
import { changedModes, figuresOf, named } from "./packet-figures";
import { commentsOf, earlierOf } from "./packet-record";
import { packetProposal } from "./packet-proposal";
import { LEVEL, QUESTION } from "./packet-question";
import { sensitivityOf, type SensitivitySettings } from "./packet-sensitivity";
import type { Ballot } from "./proposals/ballot";
import type { Proposal } from "./proposals/proposal";
import type { Setting } from "./results/result";

/** The packet of the standard study and the workbook to check it by hand. */
export interface StudyPacket {
  readonly model: DocumentModel;
  /** What the document is made from. */
  readonly results: PacketResults;
  readonly workbook: Uint8Array;
  /** The proposal voted on, and its ballot sheets. */
  readonly proposal: Proposal;
  readonly ballot: Ballot;
}

/** What a notebook has already: the case, and the drafts as the researcher left them. */
export interface StudyPacketSettings extends SensitivitySettings {
  /** The proposal to be voted on, where it is not the one derived by default. */
  readonly proposal?: Proposal | undefined;
  /** What the results of the ballot know of the study. */
  readonly setting?: Setting;
  readonly found?: FactorCase;
  readonly drafts?: readonly Draft[];
  /** The tests looked at, where they are not all of the study's. */
  readonly tests?: TestTable;
  /** ACI 318-19, or the same with other values of its options. */
  readonly present?: CodeDefinition;
  /** Folder of an earlier packet, from the project's folder, with which this one is compared. */
  readonly since?: string;
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
  const proposal =
    settings.proposal ??
    packetProposal(
      { tests, present, proposals, factors },
      settings.setting ?? { keeps: false, invented, seed: study.seed },
    );
  const ballot = proposal.ballot();
  const { sheets } = ballot;
  const studied = new Set(groups.map(({ by }) => by["mode"]));
  const otherModes = all.evidence.filter(({ mode }) => !studied.has(mode));
  const everyMode = [
    ...groups,
    ...groupRatios({ ...all, evidence: otherModes }, ["mode", "bar_material"], QUESTION),
  ];
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
  const changed = new Set(changedModes(sheets));
  const byStudy = groupRatios(
    { ...all, evidence: all.evidence.filter(({ mode }) => changed.has(mode)), notJudged: [] },
    ["mode", "bar_material", "study_id"],
    QUESTION,
  ).filter(({ n }) => n > 0);
  const leftOut = factors.flatMap(({ label, rounded, leftOut: parts }) =>
    rounded === null || parts.length === 0 ? [] : [{ label, proposed: rounded, leftOut: parts }],
  );
  const results: PacketResults = {
    title: `FRP bars as anchors under ${named(present)}: proposed factors${settings.asked ?? ""}`,
    caution,
    studies,
    comparison: all,
    groups,
    everyMode,
    factors,
    proposals,
    sheets,
    byStudy,
    sensitivity: sensitivityOf({ comparison: all, groups: everyMode, proposal, settings }),
    drafts,
    change,
    question: QUESTION,
    figures: figuresOf({ comparison: all, groups: everyMode, byStudy, sheets, invented }),
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
    comments: commentsOf(study.root),
    ...earlierOf(study.root, settings.since),
    colophon: colophon(study),
  };
  const workbook = handCheckWorkbook({
    title: `Hand check: ${present.title} (${present.edition})`,
    caution,
    checks: handChecksOf(comparison, typicalEvidence(groups), factorsOfChange(change)),
    groups: { comparison, of: groups, ...QUESTION },
  });
  return { model: packetOf(results), results, workbook, proposal, ballot };
}
