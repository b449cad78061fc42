import type { SeriesModel, TrendByGroup, TrendPoint, TrendUnit } from "../../comparison";
import {
  barSizeRegression,
  qq,
  residuals,
  trendPanels,
  trendQuantiles,
  trendResiduals,
} from "../../figures";
import {
  atSizesTable,
  outlierTable,
  seriesModelTable,
  seriesShiftTable,
  slopeDifferenceTable,
  slopeTable,
  trendGapTable,
} from "../../tables";
import { axisTitle, columnTitle } from "../../units";
import type { FigureView, TableView } from "../results/result";

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
  readonly unit: TrendUnit;
}

/** The tables of a trend. */
export type TrendTable =
  "slopes" | "slope differences" | "at sizes" | "gaps" | "series model" | "shifts" | "outliers";

/** The figures of a trend. */
export type TrendFigure = "lines" | "residuals" | "quantiles";

/** A trend as its views are made from. */
export interface ViewedTrend {
  readonly input: TrendInput;
  readonly trend: () => TrendByGroup;
  /** "Least squares of the logarithm ...": how the lines were fitted. */
  readonly fit: string;
  readonly scale: "ratio" | "log";
  readonly models: () => readonly SeriesModel[];
}

/** The tables by view. */
export function trendTables(viewed: ViewedTrend): Readonly<Record<TrendTable, TableView>> {
  const { input, trend, fit, models, scale } = viewed;
  const { basis, response, x, unit } = input;
  const variable = columnTitle(x);
  const over = `over ${variable.title.toLowerCase()}`;
  const along = `along ${variable.title.toLowerCase()}`;
  const told = columnTitle(response.replaceAll(" ", "_")).title;
  const one = `One model with a line for each group and one scatter. ${fit} ${basis}.`;
  const mixed = `Linear mixed model with one slope and a random ${unit[0]} effect, restricted maximum likelihood; lower bounds are omitted. ${basis}.`;
  return {
    slopes: {
      title: `Slope of the ${response} ${over}`,
      caption: `${fit} ${basis}.`,
      make: (text) => slopeTable(trend(), variable.unit, text),
    },
    "slope differences": {
      title: `Differences of slopes of the ${response} ${over}`,
      caption: one,
      make: (text) => slopeDifferenceTable(trend(), variable.unit, text),
    },
    "at sizes": {
      title: `${told} ${along}`,
      caption: `${fit} A value beyond the range tested is an extrapolation of the line. ${basis}.`,
      make: (text) => atSizesTable(trend(), variable, text),
    },
    gaps: {
      title: `${told} of one group relative to another ${along}`,
      caption: one,
      make: (text) => trendGapTable(trend(), variable, text),
    },
    "series model": {
      title: `${scale === "log" ? `Logarithm of the ${response}` : told} with a random ${unit[0]} effect`,
      caption: mixed,
      make: (text) => seriesModelTable(models(), trend().question, variable, text),
    },
    shifts: {
      title: `Deviation of each ${unit[0]} from the common line`,
      caption: mixed,
      make: (text) => seriesShiftTable(models(), trend().question, text),
    },
    outliers: {
      title: "Outliers and influential tests",
      caption: `Studentized residual above 3 or Cook's distance above 1 (common practice, no source). None is removed. ${basis}.`,
      make: (text) => outlierTable(trend(), variable, text),
    },
  };
}

/** The figures by view. */
export function trendFigures(viewed: ViewedTrend): Readonly<Record<TrendFigure, FigureView>> {
  const { input, trend, fit, scale } = viewed;
  const { x, yTitle, level, basis, response } = input;
  const { title, unit } = columnTitle(x);
  const logs = `${scale === "log" ? `ln ${response}` : response}, one line a group; ${basis}`;
  return {
    lines: {
      title: `${yTitle.replace(/ \([^()]*\)$/, "")} against ${title.toLowerCase()}`,
      subtitle: basis,
      caption: `${fit} Line: ${scale === "log" ? "median" : "mean"}, dashed beyond the range tested; band: its 95 % interval. Dotted: lower 90 % bound of the 5 % fractile. Open triangles: lower bounds.`,
      make: (text) =>
        barSizeRegression({
          ...text,
          xTitle: axisTitle(x),
          ratioTitle: yTitle,
          level,
          panels: trendPanels(trend(), unit),
        }),
    },
    residuals: {
      title: "Residuals against fitted values",
      subtitle: logs,
      caption: "Studentized residuals of each group's own line. Dashed: ±2.",
      make: (text) => residuals({ ...text, ...trendResiduals(trend()) }),
    },
    quantiles: {
      title: "Residuals against normal quantiles",
      subtitle: logs,
      caption:
        "Studentized residuals of each group's own line; the dashed line is a normal distribution.",
      make: (text) => qq({ ...text, ...trendQuantiles(trend()) }),
    },
  };
}
