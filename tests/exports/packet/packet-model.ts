import type { DocumentModel } from "../../../kernel-lib/src/exports/document";
import { packetOf } from "../../../kernel-lib/src/exports/packet";
import { compare, groupRatios } from "../../../kernel-lib/src/comparison";
import { TestTable, type Study, type TestRowInput } from "../../../kernel-lib/src/dataset";
import {
  beforeAfter,
  dumbbellsOf,
  ratioStrip,
  stripGroupsOf,
} from "../../../kernel-lib/src/figures";
import {
  ballotSheet,
  beforeAfterOf,
  FactorDerivation,
  type Proposal,
} from "../../../kernel-lib/src/proposals";
import { code } from "../../../kernel-lib/src/provisions";
import { beforeAfterTable, ratioGroupTable, Table } from "../../../kernel-lib/src/tables";
import { PLAIN } from "../../provisions/specimens";

/** Text that would do harm in some format if it were not treated as text. */
export const HOSTILE: readonly string[] = [
  "<script>alert(1)</script>",
  "=cmd|' /C calc'!A0",
  '"><img src=x onerror=alert(1)>',
  "مرحبا",
  "🧪".repeat(30),
  "y".repeat(600),
  "two\nlines\u0000\u0007",
  "\u202ereversed",
  "]]>",
];

/** A packet of a small invented campaign whose remarks and citations are hostile. */
export function hostilePacket(): {
  model: DocumentModel;
  characteristic: number;
  supported: boolean;
  rounded: number;
} {
  const loads = [30, 33, 36, 29, 31, 38, 34, 35, 32, 37];
  const rows = loads.map((peak_load_kN, i): TestRowInput => ({
    ...PLAIN,
    test_id: `t${i}`,
    series_id: `series ${i % 5}`,
    peak_load_kN,
  }));
  const out = HOSTILE.map((excluded, i): TestRowInput => ({
    ...PLAIN,
    test_id: `x${i}`,
    excluded,
  }));
  const tests = TestTable.fromRows([...rows, ...out]);
  const studies = HOSTILE.map((citation, i): Study => ({
    study_id: i === 0 ? "s" : `s${i}`,
    provenance: "demo",
    citation,
    doi: null,
    year: null,
    licence: null,
    transcription: "generated",
    remarks: citation,
  }));
  const all = compare(tests, code("aci318-19"), {});
  const comparison = { ...all, evidence: all.evidence.filter(({ mode }) => mode === "bond") };
  const groups = groupRatios(comparison, ["mode", "bar_material"]);
  const factors = groups.map((group) => new FactorDerivation(comparison).derive(group));
  const rounded = factors[0]!.rounded!;
  const proposals: Proposal[] = [
    {
      id: "p",
      title: "FRP bars in bond",
      changes: "aci318-19/17.6.5",
      symbol: "psi_FRP_Na",
      where: "frp == 1",
      factor: String(rounded),
      says: `${rounded} for FRP bars`,
      rationale: "Short.",
      criterion: factors[0]!.criterion,
      supported: factors[0]!.supported,
      derivation: factors[0]!.reading,
      evidence: "10 tests",
    },
  ];
  const change = beforeAfterOf(tests, code("aci318-19"), proposals, ["mode", "bar_material"]);
  const shown = { ...change, groups: change.groups.filter(({ by }) => by["mode"] === "bond") };
  const model = packetOf({
    title: 'Trial <packet> & "title"',
    caution: "Research use only. Anchorage failures can kill.",
    studies,
    comparison,
    groups,
    everyMode: groupRatios(all, ["mode", "bar_material"]),
    byStudy: [],
    factors,
    proposals,
    sheets: [ballotSheet({ present: all, changes: proposals, provision: "aci318-19/17.6.5" })],
    change,
    question: { fractile: 0.05, confidence: 0.9 },
    figures: [
      ratioStrip({
        id: "strips",
        title: "Ratios <b>",
        invented: true,
        caption: "A caption & more",
        groups: stripGroupsOf(groups),
      }),
    ],
    tables: [ratioGroupTable(groups, { id: "ratios", title: "Ratios" })],
    beforeAfter: {
      table: beforeAfterTable(shown, { id: "before-after", title: "Before and after" }),
      figure: beforeAfter({
        id: "dumbbells",
        title: "Before and after",
        measure: "Characteristic ratio (–)",
        invented: true,
        caption: "Caption.",
        groups: dumbbellsOf(shown),
      }),
    },
    excluded: new Table({
      id: "excluded",
      title: "Excluded",
      rowKey: ["test"],
      columns: [
        { key: "test", title: "test", kind: "text" },
        { key: "reason", title: "reason", kind: "text" },
      ],
      rows: HOSTILE.map((reason, i) => ({ test: `x${i}`, reason })),
    }),
    colophon: new Table({
      id: "colophon",
      title: "What these results rest on",
      rowKey: ["item"],
      columns: [{ key: "item", title: "item", kind: "text" }],
      rows: [{ item: "seed 1" }],
    }),
  });
  return { model, characteristic: groups[0]!.lower!, supported: factors[0]!.supported, rounded };
}
