import { valueWords } from "../../comparison";
import { governingRows, predict, provisionUse, type CodePrediction } from "../../provisions";
import { predictionRows } from "../../provisions/printing/prediction-rows";
import { capacityTable, governingTable, provisionUseTable, type ShownInputs } from "../../tables";
import { shortTitle } from "../comparison/comparison-tables";
import { columnValues } from "../results/drawn-rows";
import { count, fileName } from "../results/names";
import { Result, type Setting, type TableView } from "../results/result";
import type { ChosenRows } from "../tests/chosen-rows";
import { testRecords } from "../tests/test-records";
import type { Values } from "../tests/study-row";
import type { AskedCode } from "./asked-code";
import { NO_ROW } from "./asked-row";
import { PREDICTED_COLUMNS, type PredictedRow } from "./predicted-row";

type PredictionView = "governing" | "all capacities" | "provisions";

/**
 * Predictions of one or several codes for tests or what-if rows: the governing mode and capacity of
 * each, with load and ratio where a load exists. Iterating gives one row after the other.
 * @example study.where({ action: "shear" }).predict("aci318-19").table("all capacities")
 */
export class Predictions extends Result<PredictionView> implements Iterable<PredictedRow> {
  #rows: readonly PredictedRow[] | null = null;
  readonly #predictions: readonly CodePrediction[];

  constructor(
    protected readonly setting: Setting,
    private readonly chosen: ChosenRows,
    private readonly asked: readonly AskedCode[],
    private readonly columnsOfTests: readonly string[],
  ) {
    super();
    this.#predictions = asked.map(({ code, settings }) => predict(code, chosen.table, settings));
  }

  get name(): string {
    const codes = this.asked.map(({ code }) => code.id).join(" ");
    const level = this.asked[0]!.settings.level;
    return fileName(
      "predictions",
      codes,
      level === "nominal" ? "" : level,
      ...this.chosen.conditions,
    );
  }

  /** Codes and level, as captions print them. */
  get basis(): string {
    return this.asked
      .map(({ code, settings }) => `${shortTitle(code)}, ${settings.level} level`)
      .join("; ");
  }

  get length(): number {
    return this.rows().length;
  }

  /** Names of all columns. */
  get columnNames(): readonly string[] {
    return [...this.columnsOfTests, ...PREDICTED_COLUMNS];
  }

  get answer(): string {
    if (this.chosen.table.length === 0) return NO_ROW;
    return this.asked.map((_, k) => this.#answerOf(k)).join(" ");
  }

  [Symbol.iterator](): Iterator<PredictedRow> {
    return this.rows()[Symbol.iterator]();
  }

  /**
   * The values of one column in the order of the rows, code by code: numbers with NaN for a blank,
   * or words with null.
   * @throws UnknownNameError for a column that the rows do not have
   */
  column<C extends keyof PredictedRow>(name: C): Values<PredictedRow[C]> {
    return columnValues(this.rows(), this.columnNames, name);
  }

  protected sentences(): readonly string[] {
    if (this.chosen.table.length === 0) return [NO_ROW];
    const found = this.asked.flatMap((_, k) => {
      const rows = this.#rowsOf(k);
      const list = (
        key: "missing" | "outside" | "reason",
        says: (n: number, why: string) => string,
      ): string[] =>
        [...counted(rows.flatMap((row) => row[key] ?? []))]
          .slice(0, 5)
          .map(([why, n]) => says(n, why));
      return [
        this.#answerOf(k),
        ...list("reason", (n, why) => `No capacity of ${count(n, "row")}: ${why}.`),
        ...list("missing", (n, why) => `Not evaluated in ${count(n, "row")}: ${why}.`),
        ...list("outside", (n, why) => `Outside the stated range in ${count(n, "row")}: ${why}.`),
      ];
    });
    return [...found, ...(this.chosen.whatIf?.blanked ?? [])];
  }

  protected tableViews(): Readonly<Record<PredictionView, TableView>> {
    const caption = this.answer;
    const inputs = this.#inputs();
    return {
      governing: {
        title: `Governing mode and capacity, ${this.basis}`,
        caption,
        make: (text) => governingTable(this.rows(), text, inputs),
      },
      "all capacities": {
        title: `Capacities, ${this.basis}`,
        caption,
        make: (text) =>
          capacityTable(
            this.asked.flatMap(({ code, settings }) =>
              predictionRows(code, this.chosen.table, settings, {
                everyAction: false,
                steps: false,
                concernedOnly: true,
              }),
            ),
            { ...text, notes: [...(text.notes ?? []), WITHHELD] },
            inputs,
          ),
      },
      provisions: {
        title: `Provisions and the rows they apply to, ${this.basis}`,
        caption,
        make: (text) =>
          provisionUseTable(
            this.#predictions.map((prediction) => ({
              code: prediction.code.id,
              of: provisionUse(prediction),
            })),
            text,
          ),
      },
    };
  }

  private rows(): readonly PredictedRow[] {
    const records = testRecords(this.chosen.table);
    this.#rows ??= this.#predictions.flatMap((prediction) =>
      governingRows(prediction).map((found): PredictedRow => {
        const record = records[found.row]!;
        const load = this.chosen.whatIf ? null : record.peak_load_kN;
        const ratio =
          load === null || found.capacity_kN === null || record.excluded !== null
            ? null
            : load / found.capacity_kN;
        return {
          ...record,
          code: prediction.code.id,
          level: prediction.level,
          provision: found.provision,
          clause: found.clause,
          governing_mode: found.mode,
          capacity_kN: found.capacity_kN,
          load_kN: load,
          ratio,
          missing: found.missing.join("; ") || null,
          outside: found.outside.join("; ") || null,
          reason: found.reason || null,
        };
      }),
    );
    return this.#rows;
  }

  #rowsOf(k: number): readonly PredictedRow[] {
    const n = this.chosen.table.length;
    return this.rows().slice(k * n, (k + 1) * n);
  }

  #answerOf(k: number): string {
    const { code, settings } = this.asked[k]!;
    const n = this.chosen.table.length;
    const rows = this.#rowsOf(k);
    const where =
      this.chosen.conditions.length === 0 ? "" : ` (${this.chosen.conditions.join("; ")})`;
    const noun = this.chosen.whatIf ? "what-if row" : "test";
    const modes = [...counted(rows.flatMap((row) => row.governing_mode ?? []))].map(
      ([mode, times]) => `${valueWords(mode)} ${times.toLocaleString("en-US")}`,
    );
    const governed = rows.filter(({ governing_mode }) => governing_mode !== null).length;
    const lacking = rows.filter(({ missing }) => missing !== null).length;
    const which = modes.length === 0 ? "" : ` (governing: ${modes.join(", ")})`;
    const blind =
      lacking === 0 ? "" : `; in ${count(lacking, "row")} a mode lacks an input and may govern`;
    return `${shortTitle(code)}, ${settings.level} level${where}: ${governed.toLocaleString("en-US")} of ${count(n, noun)} ${n === 1 ? "has" : "have"} a capacity${which}${blind}.`;
  }

  /** The changed columns of what-if rows, shown beside their capacities. */
  #inputs(): ShownInputs {
    const columns = this.chosen.whatIf?.columns ?? [];
    const known = new Map(testRecords(this.chosen.table).map((row) => [row.test_id, row]));
    return {
      columns,
      of: (id) => {
        const row = known.get(id) as unknown as Readonly<Record<string, string | number | null>>;
        return Object.fromEntries(columns.map((column) => [column, row[column] ?? null]));
      },
    };
  }
}

const WITHHELD =
  'Capacities outside a limit of applicability are omitted; the table "provisions" gives the reasons.';

function counted(words: readonly string[]): [string, number][] {
  const found = new Map<string, number>();
  for (const word of words) found.set(word, (found.get(word) ?? 0) + 1);
  return [...found].sort((a, b) => b[1] - a[1]);
}
