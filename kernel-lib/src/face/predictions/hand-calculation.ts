import { valueWords } from "../../comparison";
import { TestTable } from "../../dataset";
import {
  clauseOf,
  governing,
  governingRows,
  governingSentence,
  interactionTrace,
  predict,
  setupAllows,
  showTrace,
  trace,
  traceToJson,
  type CodePrediction,
  type FailureMode,
  type ShownTrace,
  type Trace,
} from "../../provisions";
import { calculationTable } from "../../tables";
import { shortTitle } from "../comparison/comparison-tables";
import { KEEP } from "../results/kept";
import { fileName, knownName } from "../results/names";
import { proseBundle } from "../results/prose";
import { Result, type Setting, type TableView } from "../results/result";
import type { AskedCode } from "./asked-code";
import { NO_ROW, rowWords, type AskedRow } from "./asked-row";

/**
 * The hand calculation of one test by one code, clause by clause, in the cases that the row takes:
 * of the governing capacity, or of a mode. Shown as a printed page; as a table line by line.
 * @example study.explain("IH-075-1", "aci318-19", { mode: "bond" }).toText()
 */
export class HandCalculation extends Result<"steps"> {
  /** The calculation as the provisions give it; null where no provision is concerned. */
  readonly trace: Trace | null;
  readonly #prediction: CodePrediction;
  readonly #id: string;

  constructor(
    protected readonly setting: Setting,
    private readonly asked: AskedRow | null,
    by: AskedCode,
    private readonly mode: FailureMode | null,
  ) {
    super();
    if (mode !== null)
      knownName<string>("mode", mode, [
        ...new Set(by.code.provisions.flatMap(({ modes }) => modes)),
      ]);
    this.#id = asked?.id ?? "no row";
    this.#prediction = predict(by.code, asked?.table ?? TestTable.fromRows([]), by.settings);
    this.trace =
      asked === null
        ? null
        : mode === null
          ? governingTrace(this.#prediction)
          : modeTrace(this.#prediction, mode);
  }

  get name(): string {
    const { code, level } = this.#prediction;
    return fileName(
      "hand calculation",
      this.#id,
      code.id,
      this.mode ?? "",
      level === "nominal" ? "" : level,
    );
  }

  get answer(): string {
    const { code, level } = this.#prediction;
    if (this.asked === null) return NO_ROW;
    const of = `${rowWords(this.asked)} by ${shortTitle(code)}, ${level} level`;
    const [found] = governingRows(this.#prediction);
    if (this.trace === null)
      return this.mode === null
        ? `${of}: no capacity applies: ${found?.reason ?? ""}.`
        : `${of}: no provision for ${valueWords(this.mode)} is available at this level.`;
    const { provision, capacity_N } = this.trace;
    const modes = (this.mode ?? found?.mode ?? provision.modes[0]).replaceAll("_", " ");
    const clause =
      found?.mode === "interaction" && this.mode === null ? found.clause : clauseOf(provision.id);
    if (Number.isNaN(capacity_N))
      return `${of}: no capacity in ${modes} (${clause ?? ""}); the steps give the reason.`;
    const kN = `${digits(capacity_N / 1000)} kN`;
    const standing =
      this.mode === null || found?.provision === provision.id
        ? ", the governing capacity"
        : setupAllows(this.asked.table.text(0, "setup"), provision.modes[0])
          ? ""
          : ", a mode that this set-up does not permit";
    const peak = this.asked.table.number(0, "peak_load_kN");
    const load = this.asked.tested
      ? `; peak load ${digits(peak)} kN (ratio ${digits((1000 * peak) / capacity_N)}), observed ${valueWords(this.asked.table.text(0, "failure_mode"))}`
      : "";
    return `${of}: ${modes} (${clause ?? ""}) ${kN}${standing}${load}.`;
  }

  /** Plain text, no wider than `width` characters where one is given. */
  toText(width?: number): string {
    return this.#shown(width)?.toText() ?? this.answer;
  }

  /** Markdown, formulas as they are printed. */
  toMarkdown(): string {
    return this.#shown()?.toMarkdown() ?? this.answer;
  }

  /** LaTeX with equations. */
  toLatex(): string {
    return this.#shown()?.toLatex() ?? this.answer;
  }

  /** HTML with equations. */
  async toHtml(): Promise<string> {
    return (await this.#shown()?.toHtml()) ?? `<p>${this.answer}</p>`;
  }

  /** The answer, and every input and step with value, unit and clause. */
  override toJSON(): unknown {
    return {
      answer: this.answer,
      findings: [...this.findings()],
      steps: this.trace === null ? [] : traceToJson(this.trace),
    };
  }

  /** What a cell shows: the printed page; the table of its steps is kept. */
  async [Symbol.for("code-comparison.display")](): Promise<Record<string, unknown>> {
    const shown = this.#shown();
    if (shown === null) return proseBundle(this.answer);
    await this.table()[KEEP]();
    return {
      "text/html": shown.toNotebookHtml(),
      "text/markdown": shown.toMarkdown(),
      "text/plain": shown.toText(),
    };
  }

  protected sentences(): readonly string[] {
    const [found] = governingRows(this.#prediction);
    return [
      this.answer,
      ...(this.mode === null || this.asked === null
        ? []
        : [governingSentence(this.#prediction, 0)]),
      ...(found?.missing ?? []).map((one) => `Not evaluated: ${one}.`),
    ];
  }

  protected tableViews(): Readonly<Record<"steps", TableView>> {
    const { code, level } = this.#prediction;
    return {
      steps: {
        title: `Hand calculation of ${this.#id}, ${shortTitle(code)}, ${level} level`,
        caption: this.answer,
        make: (text) => calculationTable(this.trace, text),
      },
    };
  }

  #shown(width?: number): ShownTrace | null {
    if (this.trace === null) return null;
    return showTrace(this.trace, {
      test: this.#id,
      governing: governingSentence(this.#prediction, 0),
      ...(width === undefined ? {} : { width }),
    });
  }
}

/** The calculation of the governing capacity; of a test with both loads that of the interaction. */
function governingTrace(prediction: CodePrediction): Trace | null {
  const joint = interactionTrace(prediction, 0);
  if (joint !== null) return joint;
  const column = prediction.columns[governing(prediction).column[0] ?? -1];
  return column ? traced(prediction, column) : null;
}

/**
 * The calculation of a mode: its least capacity; where none applies, that of its first provision,
 * which says why.
 */
function modeTrace(prediction: CodePrediction, mode: FailureMode): Trace | null {
  const of = prediction.columns.filter(({ provision }) => provision.modes.includes(mode));
  const least = of
    .filter(({ capacity }) => !Number.isNaN(capacity[0]))
    .sort((a, b) => a.capacity[0]! - b.capacity[0]!)[0];
  const column = least ?? of[0];
  return column ? traced(prediction, column) : null;
}

function traced(
  { code, specimens, settings }: CodePrediction,
  { provision }: CodePrediction["columns"][number],
): Trace {
  return trace(code, provision, specimens.tests, 0, settings);
}

const digits = (value: number): string => String(Number(value.toPrecision(3)));
