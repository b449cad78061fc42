import { valueWords } from "../comparison";
import {
  coverage,
  exclusions,
  likelyDuplicates,
  missingness,
  provenance,
  TEST_COLUMNS,
  type Dataset,
  type TestTable,
} from "../dataset";
import { blankCellMap, bondStressStrips, coverageMap, ratioStrip } from "../figures";
import { predictionNeeds, type CodeDefinition, type PredictionNeed } from "../provisions";
import {
  blankCellTable,
  boundsTable,
  dataCheckTable,
  duplicateTable,
  excludedTable,
  fileTable,
  missingInputTable,
  readRows,
  readRowsTable,
  sourceTable,
  type ReadRows,
} from "../tables";
import { count } from "./results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "./results/result";

/** Cylinder strength to which bond stresses are brought before studies are compared, MPa. */
const REFERENCE_MPa = 30;

const BLANK_ALLOWED = TEST_COLUMNS.filter(({ required }) => !required).map(({ name }) => name);

/** What an audit looks at. */
export interface Audited {
  readonly data: Dataset;
  /** The tests that the study looks at. */
  readonly chosen: TestTable;
  /** Why the others are not among them, in words. */
  readonly condition: string;
  /** Codes whose inputs are asked for. */
  readonly codes: readonly CodeDefinition[];
}

type AuditTable =
  | "rows"
  | "sources"
  | "files"
  | "excluded"
  | "blank cells"
  | "missing inputs"
  | "lower bounds"
  | "data checks"
  | "duplicates";

/**
 * What the data of a study are: whether every row is accounted for, where the rows come from, what
 * is blank and what that withholds, and what checking found.
 * @example study.audit().table("missing inputs")
 */
export class Audit extends DrawnResult<
  "coverage" | "blank cells" | "bond stress by study",
  AuditTable
> {
  #needs: readonly PredictionNeed[] | null = null;
  #rows: readonly ReadRows[] | null = null;

  constructor(
    protected readonly setting: Setting,
    private readonly audited: Audited,
  ) {
    super();
  }

  get name(): string {
    return "audit";
  }

  get answer(): string {
    const n = (status: ReadRows["status"]): number =>
      this.rows.reduce((sum, one) => sum + (one.status === status ? one.n : 0), 0);
    const total = this.rows.reduce((sum, one) => sum + one.n, 0);
    const outside = n("outside the study's condition");
    const withheld = this.needs.filter(({ effect }) => effect === "withheld");
    const short = new Set(withheld.flatMap(({ rows }) => rows)).size;
    const missing =
      short === 0
        ? "no input is missing"
        : `missing inputs withhold a capacity in ${count(short, "row")}`;
    return `Every row is accounted for: ${count(total, "row")} read, ${n("used")} used, ${n("excluded")} excluded with a reason, ${outside === 0 ? "" : `${outside} outside the study's condition, `}${n("rejected on reading")} rejected on reading; ${missing} (${this.codeWords}).`;
  }

  protected sentences(): readonly string[] {
    const { data, chosen } = this.audited;
    const lines = provenance(data).map(({ file, rows, setAside, firstRow, lastRow }) =>
      firstRow === null
        ? `${file}: no row used, ${setAside} rejected.`
        : `${file}, lines ${firstRow} to ${lastRow ?? firstRow}: ${count(rows, "row")} read, ${setAside} rejected.`,
    );
    const empty = missingness(chosen, BLANK_ALLOWED).filter(({ filled }) => filled === 0);
    const twins = likelyDuplicates(chosen).length;
    const [most] = [...this.needs]
      .filter(({ effect }) => effect === "withheld")
      .sort((a, b) => b.rows.length - a.rows.length);
    const severe = (severity: string): number =>
      data.diagnostics.filter((one) => one.severity === severity).length;
    return [
      this.answer,
      ...lines,
      `Checking found ${count(severe("error"), "error")} and ${count(severe("warning"), "warning")}.`,
      ...(most === undefined
        ? []
        : [
            `Most frequent missing input: ${most.columns.join(", ")}, for ${most.provision.title} (${most.code.id}), in ${most.rows.length} of ${most.concerned} rows concerned.`,
          ]),
      ...(empty.length === 0
        ? []
        : [`No row fills ${empty.map(({ column }) => column).join(", ")}.`]),
      twins === 0
        ? "No specimen appears in two studies."
        : `${count(twins, "group")} of tests of different studies may be the same specimens.`,
    ];
  }

  protected tableViews(): Readonly<Record<AuditTable, TableView>> {
    const { data, chosen } = this.audited;
    const found = exclusions(data.tests).length + data.setAside.length;
    return {
      rows: {
        title: "Account of the rows read",
        caption: this.answer,
        make: (text) => readRowsTable(this.rows, text),
      },
      sources: {
        title: "Studies",
        caption: `${count(data.studies.length, "study", "studies")}.`,
        make: (text) => sourceTable(data, text),
      },
      files: { title: "Files read", make: (text) => fileTable(data, text) },
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
        caption:
          this.needs.length === 0
            ? `No input is missing (${this.codeWords}).`
            : `Codes: ${this.codeWords}.`,
        make: (text) => missingInputTable(this.needs, text),
      },
      "lower bounds": {
        title: "Failures and lower bounds by mode and material",
        caption:
          "Tests stopped or failed in another mode are lower bounds of the modes that their set-up leaves free.",
        make: (text) => boundsTable(chosen, text),
      },
      "data checks": {
        title: "Findings of the data checks, by rule",
        caption:
          data.diagnostics.length === 0
            ? "Checking found nothing."
            : `${count(data.diagnostics.length, "finding")}.`,
        make: (text) => dataCheckTable(data.diagnostics, text),
      },
      duplicates: {
        title: "Specimens that may be in the data twice",
        caption:
          "Across studies: bar, concrete, embedment, set-up and load agree. Within a study: every column but the name agrees, as where loads are rounded or a row was copied.",
        make: (text) => duplicateTable(chosen, text),
      },
    };
  }

  protected figureViews(): Readonly<
    Record<"coverage" | "blank cells" | "bond stress by study", FigureView>
  > {
    const { chosen } = this.audited;
    const kept = chosen.kept();
    const words = (name: string): string => name.split(" · ").map(valueWords).join(", ");
    return {
      coverage: {
        title: "Tests by bar and observed failure mode",
        caption: `${count(kept.length, "test")} that are not excluded.`,
        make: (text) => {
          const found = coverage(kept, ["bar_material", "bar_size"], ["failure_mode"]);
          return coverageMap({
            ...text,
            rows: found.rowNames.map(words),
            columns: found.columnNames.map(valueWords),
            counts: found.counts,
            rowTitle: "Bar material and size",
            columnTitle: "Observed failure mode",
          });
        },
      },
      "blank cells": {
        title: "Tests with a blank cell, by column and study",
        caption: `${count(chosen.length, "test")}. Columns that every test fills are left out.`,
        make: (text) => blankCellMap(chosen, BLANK_ALLOWED, text),
      },
      "bond stress by study": {
        title: `Bond stress at ${REFERENCE_MPa} MPa concrete strength, by study`,
        caption: `Tests in tension that failed in bond. ${bondStressStrips(chosen, REFERENCE_MPa).exponentWords}`,
        make: (text) =>
          ratioStrip({
            ...text,
            ratioTitle: "Bond stress / geometric mean of material and set-up (–)",
            groups: bondStressStrips(chosen, REFERENCE_MPa).groups,
          }),
      },
    };
  }

  private get rows(): readonly ReadRows[] {
    const { data, chosen, condition } = this.audited;
    this.#rows ??= readRows(data, chosen, condition);
    return this.#rows;
  }

  private get needs(): readonly PredictionNeed[] {
    this.#needs ??= this.audited.codes.flatMap((code) =>
      predictionNeeds(code, this.audited.chosen),
    );
    return this.#needs;
  }

  private get codeWords(): string {
    return this.audited.codes.map(({ id }) => id).join(", ");
  }
}
