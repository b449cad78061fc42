import type { Figure, FigureText, PlotValue, Trace } from "./figure";
import { figureOf } from "./figure";
import { frame, legendNames } from "./frame";
import { colours, houseAxis, lineWidths } from "./house-style";
import { plainText } from "./text-width";

export interface ModeGovernsMapInput extends FigureText {
  /** Equally spaced values along the two axes. */
  readonly x: readonly number[];
  readonly y: readonly number[];
  /**
   * governing[row][column]: the governing mode at y[row], x[column]; null where nothing applies.
   */
  readonly governing: readonly (readonly (string | null)[])[];
  readonly xTitle: string;
  readonly yTitle: string;
  /** Pieces of the lines on which one mode takes over from another. */
  readonly boundaries?: readonly {
    readonly from: readonly [number, number];
    readonly to: readonly [number, number];
  }[];
  /** Where there are tests, drawn as open circles. */
  readonly tests?: readonly { readonly x: number; readonly y: number }[];
}

const shades = ["#ffffff", "#c9d6e4", "#9a9a9a", "#dedede", "#7f9fbf", "#bdbdbd"] as const;

/**
 * Which mode governs over two variables: shaded areas, each with a letter that the legend explains.
 */
export function modeGovernsMap(input: ModeGovernsMapInput): Figure {
  const modes = [
    ...new Set(input.governing.flat().filter((mode): mode is string => mode !== null)),
  ];
  const letter = (i: number): string => String.fromCharCode(65 + i);
  const area: Trace = {
    type: "heatmap",
    x: [...input.x],
    y: [...input.y],
    z: input.governing.map((row) =>
      row.map((mode) => (mode === null ? null : modes.indexOf(mode))),
    ),
    zmin: -0.5,
    zmax: Math.max(0.5, modes.length - 0.5),
    colorscale: steps(modes.length),
    showscale: false,
    hoverinfo: "x+y",
  };
  const key = modes.map((mode, i): Trace => ({
    type: "scatter",
    mode: "markers",
    name: `${letter(i)} ${plainText(mode)}`,
    x: [null],
    y: [null],
    marker: {
      symbol: "square",
      size: 11,
      color: shades[i % shades.length] ?? colours.paper,
      line: { color: colours.ink, width: 0.75 },
    },
    hoverinfo: "skip",
  }));
  const tests = input.tests ?? [];
  const dots: Trace = {
    type: "scatter",
    mode: "markers",
    name: `tests (n = ${tests.length})`,
    x: tests.map((t) => t.x),
    y: tests.map((t) => t.y),
    marker: { symbol: "circle-open", size: 6, color: colours.ink, line: { width: 1.25 } },
  };
  const pieces = input.boundaries ?? [];
  const line: Trace = {
    type: "scatter",
    mode: "lines",
    name: "equal capacities",
    x: pieces.flatMap(({ from, to }) => [from[0], to[0], null]),
    y: pieces.flatMap(({ from, to }) => [from[1], to[1], null]),
    line: { color: colours.ink, width: lineWidths.line },
    hoverinfo: "skip",
  };
  const data = [
    area,
    ...(pieces.length > 0 ? [line] : []),
    ...key,
    ...(tests.length > 0 ? [dots] : []),
  ];
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: 280,
    legend: legendNames(data),
    parts: {
      xaxis: { ...houseAxis(input.xTitle), range: ends(input.x) },
      yaxis: { ...houseAxis(input.yTitle), range: ends(input.y) },
      annotations: modes.flatMap((mode, i) => letterNote(input, mode, letter(i))),
    },
  });
  return figureOf(
    input,
    `Governing mode over ${uncapital(input.xTitle)} and ${uncapital(input.yTitle)}: ${modes.join(", ")}.`,
    data,
    layout,
  );
}

const uncapital = (title: string): string => title.charAt(0).toLowerCase() + title.slice(1);

function steps(count: number): PlotValue {
  const n = Math.max(1, count);
  return Array.from({ length: n }, (_, i) => i).flatMap((i) => {
    const shade = shades[i % shades.length] ?? colours.paper;
    return [
      [i / n, shade],
      [(i + 1) / n, shade],
    ];
  });
}

/** Half a cell beyond the first and the last value. */
function ends(values: readonly number[]): [number, number] {
  const first = values[0] ?? 0;
  const last = values[values.length - 1] ?? 1;
  const half = values.length > 1 ? (last - first) / (values.length - 1) / 2 : 0.5;
  return [first - half, last + half];
}

/** The letter goes to the cell of the mode that is nearest to the middle of all its cells. */
function letterNote(input: ModeGovernsMapInput, mode: string, text: string): PlotValue[] {
  const cells = input.governing.flatMap((row, r) =>
    row.flatMap((one, c) => (one === mode ? [{ r, c }] : [])),
  );
  const middle = {
    r: cells.reduce((s, cell) => s + cell.r, 0) / cells.length,
    c: cells.reduce((s, cell) => s + cell.c, 0) / cells.length,
  };
  const far = (cell: { r: number; c: number }): number =>
    (cell.r - middle.r) ** 2 + (cell.c - middle.c) ** 2;
  const nearest = cells.reduce((best, cell) => (far(cell) < far(best) ? cell : best));
  return [
    {
      x: input.x[nearest.c] ?? 0,
      y: input.y[nearest.r] ?? 0,
      showarrow: false,
      text: `<b>${text}</b>`,
      bgcolor: "rgba(255,255,255,0.75)",
    },
  ];
}
