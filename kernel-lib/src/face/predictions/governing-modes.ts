import { capitalised } from "../../comparison";
import { testColumn } from "../../dataset";
import { modeCapacities, modeGovernsMap, modeGovernsMapOf } from "../../figures";
import { axisTitle } from "../../units";
import {
  clauseOf,
  governingLine,
  governingMap,
  governingRows,
  predict,
  variableWords,
  VariedRow,
  type GoverningRow,
} from "../../provisions";
import { modeLoads } from "../../provisions/planning/mode-loads";
import { governingLinesTable, heldWords, type HeldLine } from "../../tables";
import { shortTitle } from "../comparison/comparison-tables";
import { fileName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";
import type { AskedCode } from "./asked-code";
import { NO_ROW, rowWords, withoutNumbers, type AskedRow } from "./asked-row";

/** An input of the row that is varied, and its range in the unit of the column. */
export interface Varied {
  readonly column: string;
  readonly from: number;
  readonly to: number;
}

const STEPS = 61;
const CELLS = 81;
const HELD = 4;

/**
 * Which mode governs one row over one or two of its numbers: where the governing mode changes, and
 * a map of it.
 * @example
 * study.where({ test_id: "IH-075-1" }).governing("aci318-19", { concrete_strength_MPa: [20, 60] }).answer
 */
export class GoverningModes extends DrawnResult<"map", "changes"> {
  #lines: readonly HeldLine[] | null = null;
  readonly #asked: AskedRow | null;

  constructor(
    protected readonly setting: Setting,
    asked: AskedRow | null,
    private readonly by: AskedCode,
    private readonly over: readonly [Varied, Varied?],
  ) {
    super();
    // The area of a bar of another diameter is that of the circle.
    const varies = (column: string): boolean => over.some((one) => one?.column === column);
    this.#asked =
      asked !== null && varies("bar_diameter_mm") && !varies("bar_area_mm2")
        ? withoutNumbers(asked, ["bar_area_mm2"])
        : asked;
  }

  get name(): string {
    const of = this.over.map((one) => (one ? variableWords(one.column) : ""));
    return fileName("governing modes", this.#asked?.id ?? "", this.by.code.id, ...of);
  }

  get answer(): string {
    if (this.#asked === null) return NO_ROW;
    const own = this.lines().filter(({ held }) => held === null || held.own);
    const told = own.length > 0 ? own : this.lines().slice(0, 1);
    return `${rowWords(this.#asked)} by ${this.#basis()}: ${told.map(lineWords).join("; ")}.`;
  }

  protected sentences(): readonly string[] {
    if (this.#asked === null) return [NO_ROW];
    const { code, settings } = this.by;
    const [found] = governingRows(predict(code, this.#asked.table, settings));
    const outside = new Set(this.#corners().flatMap((row) => row.outside));
    return [
      this.answer,
      ...this.lines()
        .filter(({ held }) => held !== null && !held.own)
        .map((line) => capitalised(`${lineWords(line)}.`)),
      ...(found?.missing ?? []).map((one) => `Not evaluated, and may govern: ${one}.`),
      ...[...outside].map((one) => `Part of the range is outside a stated limit: ${one}.`),
      "Capacities are point predictions: because of scatter, another mode may govern a test.",
    ];
  }

  protected tableViews(): Readonly<Record<"changes", TableView>> {
    return {
      changes: {
        title: `Where the governing mode changes, ${this.#asked?.id ?? "no row"}, ${this.#basis()}`,
        caption: this.answer,
        make: (text) => governingLinesTable(this.lines(), text),
      },
    };
  }

  protected figureViews(): Readonly<Record<"map", FigureView>> {
    return {
      map: {
        title: `${this.over[1] ? "Governing mode" : "Capacity of each mode, the lowest governs"}, ${this.#asked?.id ?? "no row"}`,
        subtitle: this.#basis(),
        caption: `${this.answer}${this.over[1] && this.#asked?.tested ? " Circles: the tests chosen." : ""}`,
        make: (text) => (this.over[1] ? this.#map(text, this.over[1]) : this.#capacities(text)),
      },
    };
  }

  private lines(): readonly HeldLine[] {
    const [x, y] = this.over;
    if (this.#asked === null) return [];
    this.#lines ??= y ? [...this.#along(x, y), ...this.#along(y, x)] : [this.#line(x, null)];
    return this.#lines;
  }

  /** Lines along one variable at the row's own value of the other and at values over its range. */
  #along(along: Varied, other: Varied): HeldLine[] {
    const own = this.#asked!.table.number(0, other.column);
    const spread = values(other, HELD).filter((value) => value !== own);
    const within = own >= other.from && own <= other.to;
    return [
      ...(within ? [this.#line(along, { column: other.column, value: own, own: true })] : []),
      ...spread.map((value) => this.#line(along, { column: other.column, value, own: false })),
    ];
  }

  #line(along: Varied, held: HeldLine["held"]): HeldLine {
    const { code, settings } = this.by;
    const fixed = held === null ? {} : { [held.column]: held.value };
    const axis = { column: along.column, values: values(along, STEPS) };
    return { held, line: governingLine(code, this.#asked!.table, 0, axis, fixed, settings) };
  }

  /** The row at the ends of the ranges, where limits on a variable are exceeded first. */
  #corners(): readonly GoverningRow[] {
    const [x, y] = this.over;
    const ends = [x.from, x.to].flatMap((one) =>
      (y ? [y.from, y.to] : [NaN]).map((other) => [one, other]),
    );
    const changes = {
      [x.column]: Float64Array.from(ends, ([one]) => one!),
      ...(y ? { [y.column]: Float64Array.from(ends, ([, other]) => other!) } : {}),
    };
    const rows = new VariedRow(this.#asked!.table, 0, changes, ends.length);
    return governingRows(predict(this.by.code, rows, this.by.settings));
  }

  #map(text: Parameters<FigureView["make"]>[0], y: Varied): ReturnType<FigureView["make"]> {
    const [x] = this.over;
    const axes = {
      x: { column: x.column, values: values(x, CELLS) },
      y: { column: y.column, values: values(y, CELLS) },
    };
    const titles = { xTitle: axisTitle(x.column), yTitle: axisTitle(y.column) };
    if (this.#asked === null)
      return modeGovernsMap({
        ...text,
        ...titles,
        x: axes.x.values,
        y: axes.y.values,
        governing: [],
      });
    const { table, tested, chosen } = this.#asked;
    const map = governingMap(this.by.code, table, 0, axes, this.by.settings);
    const [xs, ys] = [chosen.numbers(x.column), chosen.numbers(y.column)];
    const places = Array.from(xs, (at, i) => ({ x: at, y: ys[i]! })).filter(
      (at) => at.x >= x.from && at.x <= x.to && at.y >= y.from && at.y <= y.to,
    );
    return modeGovernsMap({
      ...text,
      ...modeGovernsMapOf(map),
      ...titles,
      ...(tested && places.length > 0 ? { tests: places } : {}),
    });
  }

  #capacities(text: Parameters<FigureView["make"]>[0]): ReturnType<FigureView["make"]> {
    const [x] = this.over;
    const along = values(x, STEPS);
    const { code, settings } = this.by;
    const changes = { [x.column]: Float64Array.from(along) };
    const loads =
      this.#asked === null
        ? []
        : modeLoads([code], this.#asked.table, 0, changes, along.length, settings).loads;
    return modeCapacities({
      ...text,
      xTitle: axisTitle(x.column),
      changes: this.lines().flatMap(({ line }) =>
        line.stretches.slice(1).map(({ from, mode, capacityFrom_N }) => ({
          x: from,
          y: capacityFrom_N / 1000,
          label: `${mode?.replaceAll("_", " ") ?? "nothing"} governs from ${withUnit(from, x.column)}`,
        })),
      ),
      curves: loads.flatMap(({ load, source }) =>
        source === null
          ? []
          : [
              {
                label: `${source.column.provision.modes[0].replaceAll("_", " ")}, ${clauseOf(source.column.provision.id)}`,
                x: along,
                y: Array.from(load, (newtons) => newtons / 1000),
              },
            ],
      ),
    });
  }

  #basis(): string {
    return `${shortTitle(this.by.code)}, ${this.by.settings.level} level`;
  }
}

/** Equally spaced values, both ends included. */
function values({ from, to }: Varied, n: number): number[] {
  return Array.from({ length: n }, (_, k) =>
    k === n - 1 ? to : from + ((to - from) * k) / (n - 1),
  );
}

/** "at embedment 125 mm, bond governs up to a concrete strength of 34.2 MPa and …". */
function lineWords({ line, held }: HeldLine): string {
  const at = (value: number): string => withUnit(value, line.column);
  const mode = (one: string | null): string => one?.replaceAll("_", " ") ?? "no capacity";
  const where = held === null ? "" : `at ${heldWords(held.column, held.value)}, `;
  const { stretches } = line;
  const [first, ...rest] = stretches;
  const name = variableWords(line.column);
  const range = `over ${name} ${at(first!.from)} to ${at(stretches.at(-1)!.to)}`;
  if (rest.length === 0) return `${where}${mode(first!.mode)} governs ${range}`;
  const changes = rest.map(
    ({ from, mode: next }, k) =>
      `${k === 0 ? `from ${mode(first!.mode)} ` : ""}to ${mode(next)} at ${at(from)}`,
  );
  return `${where}the governing mode changes with increasing ${name} ${changes.join(", then ")} (${range})`;
}

function withUnit(value: number, column: string): string {
  const unit = testColumn(column)?.unit ?? "";
  return `${Number(value.toPrecision(3))}${unit === "" ? "" : ` ${unit}`}`;
}
