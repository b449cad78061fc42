import {
  allowedForClause,
  seriesModelFinding,
  seriesModels,
  trendAnswer,
  trendByGroup,
  trendFindings,
  type SeriesModel,
  type TrendByGroup,
  type TrendPoint,
  type TrendUnit,
  type TrendWords,
} from "../../comparison";
import { columnTitle } from "../../units";
import type { EvidenceColumn } from "../comparison/evidence-row";
import { fileName, knownName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";
import {
  trendFigures,
  trendTables,
  type TrendFigure,
  type TrendInput,
  type TrendTable,
  type ViewedTrend,
} from "./trend-views";

/** How a trend along a variable is fitted. */
export interface TrendOptions {
  /**
   * `log` (default) fits the logarithm: slopes are relative changes, scatter in proportion to the
   * mean; `ratio` fits the value itself.
   */
  readonly scale?: "ratio" | "log";
  /** Whether tests of one series may be alike; default true. */
  readonly seriesEffect?: boolean;
  /**
   * Values of the variable at which the lines are read, beyond the tests too; default: the least,
   * the middle and the largest value tested.
   */
  readonly at?: ArrayLike<number>;
  /**
   * Columns that the series model allows for beside group and variable: a level for each of their
   * words, a slope for their numbers. What is then left between series is closer to what series
   * really differ by.
   */
  readonly allowFor?: readonly EvidenceColumn[];
  /** What shares a shift: tests of a series (default), or of a study, i.e. a laboratory. */
  readonly unit?: "series_id" | "study_id";
}

/** The words of a unit. @throws UnknownNameError */
export function trendUnit(unit: TrendOptions["unit"] = "series_id"): TrendUnit {
  return knownName("unit", unit, ["series_id", "study_id"]) === "study_id"
    ? ["study", "studies"]
    : ["series", "series"];
}

/**
 * Lines along a variable, one a group, and what smaller and larger values of it would give. Lower
 * bounds are omitted from the lines and counted.
 * @example
 * study.compare("aci318-19").mode("bond").by("bar_material").trend("bar_diameter_mm", { at: [8, 32] })
 */
export class Trend extends DrawnResult<TrendFigure, TrendTable> {
  #trend: TrendByGroup | null = null;
  #models: readonly SeriesModel[] | null = null;

  constructor(
    protected readonly setting: Setting,
    private readonly input: TrendInput,
    private readonly options: TrendOptions,
  ) {
    super();
    knownName("scale", options.scale ?? "log", ["ratio", "log"]);
    for (const value of Array.from(options.at ?? []))
      if (!Number.isFinite(value))
        throw new RangeError(`A line cannot be evaluated at ${value}; expected numbers.`);
  }

  get name(): string {
    const { x, name } = this.input;
    return fileName("trend", columnTitle(x).title, this.scale === "log" ? "" : "ratio scale", name);
  }

  get answer(): string {
    const { trend, words, modelsAsked } = this;
    const more = allowedForClause(modelsAsked, trend.question, words);
    return trendAnswer(trend, words).replace(/\.$/, `${more}.`);
  }

  protected sentences(): readonly string[] {
    const { trend, words, modelsAsked } = this;
    if (trend.lines.length === 0) return [this.answer];
    return [
      ...trendFindings(trend, words),
      ...modelsAsked.map((one) => seriesModelFinding(one, trend.question, words)),
    ];
  }

  protected tableViews(): Readonly<Record<TrendTable, TableView>> {
    return trendTables(this.viewed);
  }

  protected figureViews(): Readonly<Record<TrendFigure, FigureView>> {
    return trendFigures(this.viewed);
  }

  private get viewed(): ViewedTrend {
    return {
      input: this.input,
      trend: () => this.trend,
      fit: this.fitWords,
      scale: this.scale,
      models: () => this.models,
    };
  }

  /** The models of which sentences tell: those with columns allowed for, and the pooled beside. */
  private get modelsAsked(): readonly SeriesModel[] {
    return this.options.allowFor === undefined ? [] : this.models;
  }

  private get models(): readonly SeriesModel[] {
    this.#models ??= seriesModels(this.trend, (this.options.allowFor ?? []).map(String));
    return this.#models;
  }

  private get scale(): "ratio" | "log" {
    return this.options.scale ?? "log";
  }

  private get words(): TrendWords {
    const { title, unit } = columnTitle(this.input.x);
    const { response, level } = this.input;
    return { response, variable: title.toLowerCase(), unit, level };
  }

  private get fitWords(): string {
    const of = this.scale === "log" ? `the logarithm of the ${this.input.response}` : "the values";
    const effect =
      (this.options.seriesEffect ?? true)
        ? `${this.input.unit[0]} effect included (standard errors robust by ${this.input.unit[0]})`
        : `${this.input.unit[0]} effect ignored`;
    return `Least squares of ${of}, ${effect}; lower bounds are omitted.`;
  }

  private get trend(): TrendByGroup {
    const { points, response } = this.input;
    this.#trend ??= trendByGroup(points, {
      scale: this.scale === "log" ? "log" : "value",
      seriesEffect: this.options.seriesEffect ?? true,
      at: [...new Set(Array.from(this.options.at ?? placesOf(points)))],
      response,
      variable: this.words.variable,
      unit: this.input.unit,
    });
    return this.#trend;
  }
}

/** The least, the middle and the largest value tested. */
function placesOf(points: readonly TrendPoint[]): number[] {
  const values = [
    ...new Set(points.filter(({ bound, x }) => !bound && Number.isFinite(x)).map(({ x }) => x)),
  ].sort((a, b) => a - b);
  const places = [values[0], values[Math.floor((values.length - 1) / 2)], values.at(-1)];
  return [...new Set(places)].filter((value) => value !== undefined);
}

/** The cells of a row that a series model allows for. */
export function besideOf(row: object, columns: readonly string[]): TrendPoint["beside"] & object {
  const cells = row as Readonly<Record<string, string | number | null | undefined>>;
  return Object.fromEntries(columns.map((name) => [name, cells[name] ?? null]));
}

/**
 * The column along which lines run. Without rows no column holds numbers: then any name that there
 * is will do, and the trend says that it has no rows.
 * @throws UnknownNameError for a column that there is not or that holds words
 */
export function alongColumn(
  x: string,
  { numbers, names }: { readonly numbers: readonly string[]; readonly names: readonly string[] },
): string {
  return numbers.length === 0
    ? knownName("column", x, names)
    : knownName("column of numbers", x, numbers);
}
