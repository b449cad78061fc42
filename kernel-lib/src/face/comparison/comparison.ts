import {
  accountOf,
  type Comparison as Pairs,
  type CountedReason,
  valueWords,
} from "../../comparison";
import { TEST_COLUMNS } from "../../dataset";
import {
  accountTable,
  notJudgedTable,
  unusedTable,
  type Table,
  type TableText,
} from "../../tables";
import { DrawnRows } from "../results/drawn-rows";
import { count, fileName, knownName } from "../results/names";
import type { FigureView, Setting, TableView } from "../results/result";
import { readyCondition, type Condition, type ReadyCondition } from "../tests/condition";
import { DERIVED_COLUMNS } from "../tests/derived-columns";
import { testRecords } from "../tests/test-records";
import {
  evidenceTable,
  joinedTables,
  lowerBoundTable,
  modesTable,
  shortTitle,
} from "./comparison-tables";
import type { ComparedCode } from "./compared-codes";
import {
  COMPARISON_COLUMNS,
  type EvidenceColumn,
  type EvidenceRow,
  type JudgedMode,
} from "./evidence-row";
import type { RatioFigure } from "./group-figures";
import { Groups } from "./groups";
import { modeAgreementWords } from "./mode-words";
import { pairColumns, pairsThat } from "./pair-columns";

interface Chosen {
  readonly rejected: readonly CountedReason[];
  readonly conditions: readonly string[];
}

type ComparisonTable =
  "account" | "evidence" | "without ratio" | "not judged" | "lower bounds" | "modes";

/**
 * Tests joined with the predictions of one or several codes: the ratio of peak load to capacity for
 * each pair of test and provision.
 * @example study.compare("aci318-19").mode("bond").by("bar_material").table()
 */
export class Comparison extends DrawnRows<EvidenceRow, RatioFigure, ComparisonTable> {
  #rows: readonly EvidenceRow[] | null = null;

  constructor(
    protected readonly setting: Setting,
    readonly chosen: Chosen,
    readonly parts: readonly ComparedCode[],
  ) {
    super();
  }

  get name(): string {
    const codes = this.parts.map(({ pairs }) => pairs.code.id).join(" ");
    const level = this.parts[0]?.pairs.prediction.level ?? "nominal";
    return fileName("ratios", codes, level === "nominal" ? "" : level, ...this.chosen.conditions);
  }

  get columnNames(): readonly string[] {
    const [first] = this.parts;
    const own = (first?.pairs.tests.extraColumns ?? [])
      .map(({ name }) => name)
      .filter((name) => !DERIVED_COLUMNS.includes(name));
    return [
      ...new Set([
        ...TEST_COLUMNS.map(({ name }) => name),
        "layout",
        ...DERIVED_COLUMNS,
        ...COMPARISON_COLUMNS,
        ...own.map((name) => `extra.${name}`),
      ]),
    ];
  }

  /** Codes, level and the conditions that the rows meet, as titles print them. */
  get basis(): string {
    const codes = this.parts.map(
      ({ pairs }) => `${shortTitle(pairs.code)}, ${pairs.prediction.level} level`,
    );
    return [...codes, ...this.chosen.conditions].join("; ");
  }

  get answer(): string {
    const sentences = this.parts.map(({ pairs }) => {
      const failures = new Set(pairs.evidence.filter(({ bound }) => !bound).map(({ row }) => row))
        .size;
      const used = new Set(pairs.evidence.map(({ row }) => row)).size;
      const [n, bounds] = [failures, used - failures].map((one) => one.toLocaleString("en-US"));
      const where =
        this.chosen.conditions.length === 0 ? "" : ` (${this.chosen.conditions.join("; ")})`;
      const governing = pairs.capacityOf === "governing mode" ? " to the governing capacity" : "";
      const of = `${shortTitle(pairs.code)}, ${pairs.prediction.level} level${where}`;
      return used === 0
        ? `${of}: none of ${count(pairs.tests.length, "row")} gives a ratio${governing}.`
        : `${of}: ${used.toLocaleString("en-US")} of ${count(pairs.tests.length, "row")} ${used === 1 ? "gives" : "give"} a ratio${governing}, ${n} as failures in the mode and ${bounds} as lower bounds only.`;
    });
    return sentences.join(" ");
  }

  /**
   * The pairs that meet a condition on any column of the tests or of the comparison.
   * @throws UnknownNameError for a column that there is not
   */
  where(condition: Condition<EvidenceRow>): Comparison {
    return this.filtered(readyCondition(condition, this.columnNames));
  }

  /** The pairs of these modes. @throws UnknownNameError for a mode that no code here predicts */
  mode(...modes: readonly [JudgedMode, ...JudgedMode[]]): Comparison {
    const known = [
      ...new Set(
        this.parts.flatMap(({ pairs }) =>
          pairs.prediction.columns.flatMap(({ provision }) => provision.modes),
        ),
      ),
    ];
    modes.forEach((mode) => knownName<string>("mode", mode, known));
    return this.filtered(
      readyCondition<EvidenceRow>({ mode: modes }, ["mode"]),
      `${modes.map(valueWords).join(" and ")}`,
    );
  }

  /**
   * Groups of the evidence by the values of columns. Without `mode` a test counts once, in its
   * observed mode; with several codes, `code` is always a grouping column.
   * @throws UnknownNameError for a column that there is not
   */
  by<C extends readonly [EvidenceColumn, ...EvidenceColumn[]]>(
    ...columns: C
  ): Groups<C[number], Comparison> {
    for (const column of columns) knownName("column", String(column), this.columnNames);
    return new Groups<C[number], Comparison>(
      this.setting,
      this,
      columns.map(String),
      this.setting.judge ?? {},
    );
  }

  protected records(): readonly EvidenceRow[] {
    this.#rows ??= this.parts.flatMap(({ pairs }) =>
      pairs.evidence.map((one): EvidenceRow => ({
        ...testRecords(pairs.tests)[one.row]!,
        ...pairColumns(pairs, one),
      })),
    );
    return this.#rows;
  }

  protected sentences(): readonly string[] {
    return this.parts.flatMap((part) => {
      const { notJudged } = accountOf(part.pairs, this.chosen.rejected);
      const reasons = notJudged
        .slice(0, 5)
        .map(({ status, reason, n }) => `${count(n, "row")} not judged, ${status}: ${reason}.`);
      const modes =
        part.pairs.capacityOf === "governing mode" ? [modeAgreementWords(part.pairs)] : [];
      return [new Comparison(this.setting, this.chosen, [part]).answer, ...modes, ...reasons];
    });
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    const of =
      (make: (pairs: Pairs, text: TableText) => Table) =>
      (text: TableText): Table =>
        joinedTables(
          this.parts.map(({ pairs }) => [pairs.code.id, make(pairs, text)]),
          text,
        );
    const caption = this.answer;
    const told = (): string => this.parts.map(({ pairs }) => modeAgreementWords(pairs)).join(" ");
    return {
      account: {
        title: `Account of rows, ${this.basis}`,
        caption,
        make: of((pairs, text) => accountTable(accountOf(pairs, this.chosen.rejected), text)),
      },
      evidence: {
        title: `Test-to-predicted ratios, ${this.basis}`,
        caption,
        make: (text) => evidenceTable(this.records(), text),
      },
      "without ratio": {
        title: `Tests without a ratio, by reason, ${this.basis}`,
        caption,
        make: of((pairs, text) => unusedTable(pairs, text)),
      },
      "not judged": {
        title: `Pairs of test and provision that are not judged, ${this.basis}`,
        caption,
        make: of(notJudgedTable),
      },
      "lower bounds": {
        title: "Failures and lower bounds by mode",
        caption,
        make: of((pairs, text) => lowerBoundTable(pairs, text)),
      },
      modes: {
        title: `Observed and predicted failure mode, ${this.basis}`,
        get caption() {
          return told();
        },
        make: of((pairs, text) => modesTable(pairs, text)),
      },
    };
  }

  /** Those of the groups by material, the test against its prediction first. */
  protected figureViews(): Readonly<Record<string, FigureView>> {
    const { "test against predicted": first, ...others } = new Groups(
      this.setting,
      this,
      ["bar_material"],
      this.setting.judge ?? {},
    ).figures();
    return { "test against predicted": first, ...others };
  }

  private filtered(
    condition: ReadyCondition<EvidenceRow>,
    words: string = condition.words,
  ): Comparison {
    const parts = this.parts.map(({ pairs }) => ({ pairs: pairsThat(condition, pairs) }));
    return new Comparison(
      this.setting,
      { ...this.chosen, conditions: [...this.chosen.conditions, words] },
      parts,
    );
  }
}
