import {
  trendAnswer,
  trendByGroup,
  trendFindings,
  type TrendByGroup,
  type TrendPoint,
} from "../../comparison";
import {
  barSizeRegression,
  qq,
  residuals,
  trendPanels,
  trendQuantiles,
  trendResiduals,
} from "../../figures";
import { axisTitle, columnTitle } from "../../units";
import { atSizesTable, slopeDifferenceTable, slopeTable } from "../../tables";
import { fileName, knownName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";

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
}

/** What is fitted along a variable. */
export interface TrendInput {
  readonly name: string;
  readonly points: readonly TrendPoint[];
  /** Column along which the lines run. */
  readonly x: string;
  /** "ratio", "bond stress": what is fitted, in a sentence. */
  readonly response: string;
  /** Title of the vertical axis. */
  readonly yTitle: string;
  /** The level that the values are held against; null for none. */
  readonly level: number | null;
  /** Codes and level, or the tests, as captions print them. */
  readonly basis: string;
}

/**
 * Lines along a variable, one a group, and what smaller and larger values of it would give. Lower
 * bounds are left out of the lines and counted.
 * @example
 * study.compare("aci318-19").mode("bond").by("bar_material").trend("bar_diameter_mm", { at: [8, 32] })
 */
export class Trend extends DrawnResult<
  "lines" | "residuals" | "quantiles",
  "slopes" | "slope differences" | "at sizes"
> {
  #trend: TrendByGroup | null = null;

  constructor(
    protected readonly setting: Setting,
    private readonly input: TrendInput,
    private readonly options: TrendOptions,
  ) {
    super();
    knownName("scale", options.scale ?? "log", ["ratio", "log"]);
    for (const value of Array.from(options.at ?? []))
      if (!Number.isFinite(value))
        throw new RangeError(`A line cannot be read at ${value}; expected numbers.`);
  }

  get name(): string {
    return fileName(this.input.name, "trend", this.input.x);
  }

  get answer(): string {
    return trendAnswer(this.trend, this.words);
  }

  protected sentences(): readonly string[] {
    return trendFindings(this.trend, this.words);
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    const { basis, response } = this.input;
    const { unit } = this.variable;
    const { trend } = this;
    const [over, fit] = [`over ${this.words.variable}`, this.fitWords];
    return {
      slopes: {
        title: `Slope of the ${response} ${over}`,
        caption: `${fit} ${basis}.`,
        make: (text) => slopeTable(trend, unit, text),
      },
      "slope differences": {
        title: `Differences of slopes of the ${response} ${over}`,
        caption: `One model with a line for each group and one scatter. ${fit} ${basis}.`,
        make: (text) => slopeDifferenceTable(trend, unit, text),
      },
      "at sizes": {
        title: `${columnTitle(response.replaceAll(" ", "_")).title} along ${this.words.variable}`,
        caption: `${fit} A value beyond the sizes tested rests on the line alone. ${basis}.`,
        make: (text) => atSizesTable(trend, this.variable, text),
      },
    };
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    const { x, yTitle, level, basis, response } = this.input;
    const { trend } = this;
    const lines = `${this.fitWords} Band: 95 % interval of the line.`;
    const logs = this.scale === "log" ? `ln ${response}` : response;
    return {
      lines: {
        title: `${yTitle.replace(/ \([^()]*\)$/, "")} against ${this.words.variable}`,
        subtitle: basis,
        caption: `${lines} Open triangles: lower bounds, left out of the lines.`,
        make: (text) =>
          barSizeRegression({
            ...text,
            xTitle: axisTitle(x),
            ratioTitle: yTitle,
            level,
            panels: trendPanels(trend, this.variable.unit),
          }),
      },
      residuals: {
        title: "Residuals against fitted values",
        subtitle: `${logs}, one line a group`,
        caption: "Studentised residuals of each group's own line. Dashed: ±2.",
        make: (text) => residuals({ ...text, ...trendResiduals(trend) }),
      },
      quantiles: {
        title: "Residuals against normal quantiles",
        subtitle: `${logs}, one line a group`,
        caption: "Studentised residuals of each group's own line; the line is a normal law.",
        make: (text) => qq({ ...text, ...trendQuantiles(trend) }),
      },
    };
  }

  private get scale(): "ratio" | "log" {
    return this.options.scale ?? "log";
  }

  private get variable(): { readonly title: string; readonly unit: string | null } {
    return columnTitle(this.input.x);
  }

  private get words(): { response: string; variable: string; unit: string | null } {
    const { title, unit } = this.variable;
    return { response: this.input.response, variable: title.toLowerCase(), unit };
  }

  private get fitWords(): string {
    const of = this.scale === "log" ? `the logarithm of the ${this.input.response}` : "the values";
    const effect =
      (this.options.seriesEffect ?? true)
        ? "series effect included (standard errors robust by series)"
        : "series effect ignored";
    return `Least squares of ${of}, ${effect}; lower bounds are left out.`;
  }

  private get trend(): TrendByGroup {
    const { points, response } = this.input;
    this.#trend ??= trendByGroup(points, {
      scale: this.scale === "log" ? "log" : "value",
      seriesEffect: this.options.seriesEffect ?? true,
      at: [...new Set(Array.from(this.options.at ?? placesOf(points)))],
      response,
      variable: this.words.variable,
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
