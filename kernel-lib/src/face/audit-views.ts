import { exclusions, missingness, type TestTable } from "../dataset";
import { blankCellMap, bondStressStrips, exponentWords, ratioStrip } from "../figures";
import {
  betweenStudiesTable,
  blankCellTable,
  boundsTable,
  dataCheckTable,
  duplicateTable,
  excludedTable,
  fileTable,
  missingInputTable,
  readRowsTable,
  sourceTable,
  testRangesTable,
} from "../tables";
import { BLANK_ALLOWED, REFERENCE_MPa, type Audited } from "./audited";
import { count } from "./results/names";
import type { FigureView, TableView } from "./results/result";
import { coverageBy } from "./tests/coverage-figure";

export type AuditTable =
  | "rows"
  | "sources"
  | "files"
  | "ranges"
  | "excluded"
  | "blank cells"
  | "missing inputs"
  | "lower bounds"
  | "data checks"
  | "duplicates"
  | "between studies";

export type AuditFigure =
  "coverage" | "coverage by set-up" | "blank cells" | "bond stress by study";

/** The tables of an audit. */
export function auditTables(audited: Audited): Readonly<Record<AuditTable, TableView>> {
  const { data, chosen, codeWords } = audited;
  const total = data.tests.length + data.rejected.length;
  const found = exclusions(data.tests).length + data.rejected.length;
  return {
    rows: {
      title: "Account of the rows read",
      caption: `${count(total, "row")}.`,
      make: (text) => readRowsTable(audited.rows, text),
    },
    sources: {
      title: "Studies",
      caption: `${count(data.studies.length, "study", "studies")}.`,
      make: (text) => sourceTable(data, text),
    },
    files: { title: "Files read", make: (text) => fileTable(data, text) },
    ranges: {
      title: "Range of the tests by study and bar material",
      caption: `${count(chosen.kept().length, "test")} that are not excluded.`,
      make: (text) => testRangesTable(chosen, text),
    },
    excluded: {
      title: "Excluded and rejected rows",
      caption: found === 0 ? "No row is excluded or rejected." : `${count(found, "row")}.`,
      make: (text) => excludedTable(data, text),
    },
    "blank cells": {
      title: "Filled and blank cells by column",
      caption: `${count(chosen.length, "test")}.`,
      make: (text) => blankCellTable(chosen, BLANK_ALLOWED, text),
    },
    "missing inputs": {
      title: "Inputs that provisions need and rows do not state",
      get caption() {
        const none = audited.needs.length === 0;
        return none ? `No input is missing (${codeWords}).` : `Codes: ${codeWords}.`;
      },
      make: (text) => missingInputTable(audited.needs, text),
    },
    "lower bounds": {
      title: "Failures and lower bounds by mode and material",
      caption:
        "Tests stopped or failed in another mode are lower bounds for the other modes that their set-up permits.",
      make: (text) => boundsTable(chosen, text),
    },
    "data checks": {
      title: "Findings of the data checks, by rule",
      caption:
        data.diagnostics.length === 0
          ? "The checks found nothing."
          : `${count(data.diagnostics.length, "finding")}.`,
      make: (text) => dataCheckTable(data.diagnostics, text),
    },
    duplicates: {
      title: "Specimens that may be in the data twice",
      caption:
        "Between studies: bar, concrete, embedment, set-up and load are the same. Within a study: every column except the name is the same, for example because loads are rounded or a row was copied.",
      make: (text) => duplicateTable(chosen, text),
    },
    "between studies": {
      title: `Scatter of bond stress between studies, at ${REFERENCE_MPa} MPa concrete strength`,
      get caption() {
        return `Tests in tension that failed in bond. ${exponentWords(audited.bondStress)}`;
      },
      make: (text) => betweenStudiesTable(audited.bondStress, text),
    },
  };
}

/** The figures of an audit. */
export function auditFigures(audited: Audited): Readonly<Record<AuditFigure, FigureView>> {
  const { chosen } = audited;
  const kept = chosen.kept();
  return {
    coverage: {
      title: "Tests by bar and observed failure mode",
      caption: `${count(kept.length, "test")} that are not excluded.`,
      make: coverageBy(kept, ["bar_material", "bar_size"], "Bar material and size"),
    },
    "coverage by set-up": {
      title: "Tests by set-up and observed failure mode",
      caption: `${count(kept.length, "test")} that are not excluded. Each set-up permits only some modes.`,
      make: coverageBy(kept, ["setup", "bar_material"], "Set-up and bar material"),
    },
    "blank cells": {
      title: "Tests with a blank cell, by column and study",
      caption: `${count(chosen.length, "test")}. Columns filled in all tests or in none are omitted.`,
      make: (text) => blankCellMap(chosen, columnsInUse(chosen), text),
    },
    "bond stress by study": {
      title: `Bond stress at ${REFERENCE_MPa} MPa concrete strength, by study`,
      get caption() {
        return `Tests in tension that failed in bond. ${exponentWords(audited.bondStress)}`;
      },
      make: (text) =>
        ratioStrip({
          ...text,
          ratioTitle: "Bond stress / geometric mean of material and set-up (–)",
          groups: bondStressStrips(audited.bondStress),
        }),
    },
  };
}

/** Columns that some test fills. */
function columnsInUse(tests: TestTable): string[] {
  return missingness(tests, [...BLANK_ALLOWED])
    .filter(({ filled }) => filled > 0)
    .map(({ column }) => column);
}
