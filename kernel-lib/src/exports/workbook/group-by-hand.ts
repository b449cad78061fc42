import { UPPER_SHARE, type CellBounds, type RatioGroup } from "../../comparison";
import { addressOf, type Cell } from "../../tables";
import { boundsByHand, type BoundsByHand, type SeriesByHand } from "./bounds-by-hand";
import { percent, type CharacteristicQuestion } from "./factor-sheet";

const [CELL, SERIES, COUNT, MEAN, SQUARES, WORTH] = [0, 1, 2, 3, 4, 5] as const;
/** Degrees of freedom below which K changes so fast that the hand calculation is rough. */
const FEW = 5;
/** Columns of a result by hand and of the library's. */
const [HAND, LIBRARY] = [3, 4] as const;

/** The ratios of a group that failed in the mode, as ranges of the sheet of ratios. */
export interface RangesOfRatios {
  readonly ratio: string;
  readonly series: string;
  readonly cell: string;
}

/** Writes the series of one group and the steps from them to the bounds of each cell. */
export class GroupByHand {
  readonly #first: number;
  readonly #last: number;
  readonly #series: readonly SeriesByHand[];
  readonly #lognormal: boolean;
  readonly #found: BoundsByHand;
  readonly #upperConfidence: number;

  constructor(
    private readonly rows: Cell[][],
    series: readonly SeriesByHand[],
    private readonly group: RatioGroup,
    private readonly ranges: RangesOfRatios,
    private readonly question: CharacteristicQuestion,
  ) {
    this.#lognormal = group.distribution === "lognormal";
    this.#series = series;
    this.#first = rows.length + 1;
    this.#last = this.#first + this.#series.length - 1;
    const judged = Math.max(1, group.inGeneral.cells.filter((one) => one.judged).length);
    this.#upperConfidence = 1 - (UPPER_SHARE * (1 - question.confidence)) / judged;
    this.#found = boundsByHand(this.#series, {
      fractile: question.fractile,
      lowerConfidence: question.confidence,
      upperConfidence: this.#upperConfidence,
      scaled: !this.#lognormal,
    });
  }

  write(): void {
    this.rows.push(
      headings(["cell", "series", "tests n_i", "mean", "sum of squares", "worth w_i"]),
    );
    // The steps follow the series and their headings; the worth of a series reads ρ, the seventh.
    const step = (k: number): string => addressOf(HAND, this.#last + 2 + k);
    const [k, p, n, size, between, within, rho, sd, nu] = Array.from({ length: 9 }, (_, i) =>
      step(i),
    );
    this.#writeSeries(rho!);
    this.rows.push(headings(["step", "meaning", "", "by hand", "library", "difference, %"]));
    const { found, cells } = { found: this.#found, cells: this.group.inGeneral.cells };
    const sumOver = (term: (cell: string) => string): string =>
      cells.map(({ cell }) => term(cell)).join("+");
    const [counts, means] = [this.#column(COUNT), this.#column(MEAN)];
    const inCell = (cell: string): string => this.#isIn(cell);
    const mean = (cell: string): string =>
      `(SUMPRODUCT(${inCell(cell)}*${counts}*${means})/SUMPRODUCT(${inCell(cell)}*${counts}))`;
    // Normal ratios scatter in proportion to the mean of their cell.
    const scale = (cell: string): string => (this.#lognormal ? "1" : mean(cell));
    this.#step("k", "series in which a test failed in the mode", `COUNT(${counts})`, found.k);
    this.#step("p", "cells", String(found.p), found.p);
    this.#step("n", "tests that failed in the mode", `SUM(${counts})`, found.n, this.group.n);
    this.#step(
      "n_0",
      "typical number of tests of a series, (n − Σ_cells Σ n_i²/n_cell)/(k − p)",
      `(${n}-(${sumOver((cell) => `SUMPRODUCT(${inCell(cell)}*${counts}^2)/SUMPRODUCT(${inCell(cell)}*${counts})`)}))/(${k}-${p})`,
      found.typicalSize,
    );
    this.#step(
      "MS_b",
      `mean square between series, within cells${this.#lognormal ? "" : ", over the squared mean of the cell"}`,
      `(${sumOver((cell) => `SUMPRODUCT(${inCell(cell)}*${counts}*(${means}-${mean(cell)})^2)/${scale(cell)}^2`)})/(${k}-${p})`,
      found.between,
    );
    this.#step(
      "MS_w",
      "mean square within series; 0 where each series is one test",
      `IF(${n}>${k},(${sumOver((cell) => `SUMPRODUCT(${inCell(cell)}*${this.#column(SQUARES)})/${scale(cell)}^2`)})/(${n}-${k}),0)`,
      found.within,
    );
    this.#step(
      "ρ",
      "intraclass correlation, (MS_b − MS_w)/(MS_b + (n_0 − 1) MS_w), not below 0; the library's is the mean over its values",
      `IF(${n}>${k},MAX(0,(${between}-${within})/(${between}+(${size}-1)*${within})),1)`,
      found.correlation,
      this.group.inGeneral.icc,
    );
    const ofSeries = `(MAX(${between},${within})/${size})`;
    const ofTests = `((1-1/${size})*${within})`;
    this.#step(
      this.#lognormal ? "SD" : "COV",
      `${this.#lognormal ? "SD of ln(ratio)" : "COV"} of a further test of a further series, √(MS_b/n_0 + (1 − 1/n_0) MS_w)`,
      `SQRT(${ofSeries}+${ofTests})`,
      found.sd,
    );
    this.#step(
      "ν",
      "degrees of freedom of that scatter (Satterthwaite)",
      `${sd}^4/(${ofSeries}^2/(${k}-${p})+IF(${n}>${k},${ofTests}^2/(${n}-${k}),0))`,
      found.degrees,
    );
    if (found.degrees < FEW)
      this.rows.push([
        { value: "note", look: "wrapped" },
        {
          value: `With fewer than ${FEW} degrees of freedom the hand calculation, which takes one value of ρ as known, is a rough check only; its lower bound can be far too low.`,
          look: "wrapped",
        },
      ]);
    for (const cell of cells) this.#writeCell(cell, sd!, nu!);
  }

  /** Series with their numbers, over the ratios of the other sheet. */
  #writeSeries(rho: string): void {
    const { ranges } = this;
    const values = this.#lognormal ? `LN(${ranges.ratio})` : ranges.ratio;
    this.#series.forEach(({ cell, series, values: own }, k) => {
      const at = (column: number): string => addressOf(column, this.#first + k);
      const chosen = `(${ranges.series}=${at(SERIES)})*(${ranges.cell}=${at(CELL)})`;
      const mean = own.reduce((sum, value) => sum + value, 0) / own.length;
      const squares = own.reduce((sum, value) => sum + (value - mean) ** 2, 0);
      this.rows.push([
        cell,
        series,
        { value: own.length, formula: `SUMPRODUCT(${chosen})` },
        { value: mean, formula: `SUMPRODUCT(${chosen}*${values})/${at(COUNT)}` },
        { value: squares, formula: `SUMPRODUCT(${chosen}*(${values}-${at(MEAN)})^2)` },
        {
          value: own.length / (1 + (own.length - 1) * this.#found.correlation),
          formula: `${at(COUNT)}/(1+(${at(COUNT)}-1)*${rho})`,
        },
      ]);
    });
  }

  #writeCell({ cell, mean, lower, upper }: CellBounds, sd: string, nu: string): void {
    const found = this.#found.cells.get(cell);
    if (found === undefined) throw new Error(`No series of the cell "${cell}".`);
    const of = cell === "" ? "" : `, ${cell}`;
    const inCell = this.#isIn(cell);
    const { fractile, confidence } = this.question;
    const worth = this.#step(
      `n'${of}`,
      "effective number of tests, Σ w_i",
      `SUMPRODUCT(${inCell}*${this.#column(WORTH)})`,
      found.worth,
    );
    const center = this.#step(
      `mean${of}`,
      `${this.#lognormal ? "mean of ln(ratio)" : "mean ratio"}, weighted by w_i`,
      `SUMPRODUCT(${inCell}*${this.#column(WORTH)}*${this.#column(MEAN)})/${worth}`,
      found.mean,
      this.#lognormal ? null : mean,
    );
    const bound = (
      name: string,
      share: number,
      sign: "+" | "-",
      [k, value]: readonly [number, number],
      library: number,
    ): void => {
      const [z, square] = [`NORMSINV(${1 - fractile})`, `NORMSINV(${share})^2`];
      const a = `(1-${square}/(2*${nu}))`;
      const factor = this.#step(
        `K, ${name}${of}`,
        `one-sided factor at ${percent(share)} confidence, from n' and ν`,
        `(${z}${sign}SQRT(${z}^2-${a}*(${z}^2-${square}/${worth})))/${a}`,
        k,
      );
      this.#step(
        `${name}${of}`,
        this.#lognormal ? "exp(mean − K SD)" : "mean × (1 − K COV)",
        this.#lognormal ? `EXP(${center}-${factor}*${sd})` : `${center}*(1-${factor}*${sd})`,
        this.#lognormal ? Math.exp(value) : value,
        library,
        "result",
      );
    };
    bound("lower bound", confidence, "+", [found.kLower, found.lower], lower);
    bound("upper bound", this.#upperConfidence, "-", [found.kUpper, found.upper], upper);
  }

  /** Adds a step and returns where its value stands. */
  #step(
    symbol: string,
    meaning: string,
    formula: string,
    value: number,
    library: number | null = null,
    look: "plain" | "result" = "plain",
  ): string {
    const row = this.rows.length;
    const [ours, theirs] = [addressOf(HAND, row), addressOf(LIBRARY, row)];
    const difference = library === null ? NaN : 100 * (value / library - 1);
    this.rows.push([
      { value: symbol, look: "wrapped" },
      { value: meaning, look: "wrapped" },
      null,
      { value, formula, look },
      ...(library === null || !Number.isFinite(difference)
        ? []
        : [
            library,
            {
              value: Math.round(10 * difference) / 10,
              formula: `ROUND(100*(${ours}/${theirs}-1),1)`,
            },
          ]),
    ]);
    return ours;
  }

  #column(k: number): string {
    return `${addressOf(k, this.#first)}:${addressOf(k, this.#last)}`;
  }

  #isIn(cell: string): string {
    return `(${this.#column(CELL)}="${cell.replaceAll('"', '""')}")`;
  }
}

const headings = (titles: readonly string[]): Cell[] =>
  titles.map((value, k) => ({ value, look: k < COUNT ? "heading" : "headingRight" }));
