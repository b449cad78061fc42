import type { CellOutput } from "../../kernel-lib/src/notebook";

/** A seeded stream of numbers in [0, 1), enough for tests. */
export function randomStream(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 1103515245 + 12345) % 2147483648) / 2147483648;
}

const TABLE = "application/vnd.code-comparison.table+json";
const FIGURE = "application/vnd.plotly.v1+json";

/**
 * Random outputs of a cell, with the setters of all their numbers and the words that must name each
 * place.
 */
export interface RandomOutputs {
  readonly outputs: CellOutput[];
  readonly numbers: readonly {
    readonly get: () => number;
    readonly set: (value: number) => void;
    readonly names: readonly string[];
    /** The numbers of the column or list that it stands in; none for a number in a text. */
    readonly column: () => readonly number[];
  }[];
}

/** One to four outputs: printed text, a table, a figure or plain data. */
export function randomOutputs(random: () => number): RandomOutputs {
  const numbers: RandomOutputs["numbers"][number][] = [];
  const count = 1 + Math.floor(random() * 4);
  const number = (): number => (random() - 0.5) * 10 ** Math.round(random() * 16 - 8);
  const outputs = Array.from({ length: count }, (_, index): CellOutput => {
    const place = count > 1 ? `output ${index + 1}` : "output";
    const kind = Math.floor(random() * 4);
    if (kind === 0) {
      const output = {
        output_type: "stream" as const,
        name: index % 2 ? "stdout" : "stderr",
        text: "",
      };
      const values = Array.from({ length: 1 + Math.floor(random() * 5) }, number);
      const write = (): void =>
        void (output.text = values
          .map((value, line) => `line ${String.fromCharCode(97 + line)}: ${value} MPa\n`)
          .join(""));
      values.forEach((_value, line) =>
        numbers.push({
          get: () => values[line]!,
          set: (value) => void ((values[line] = value), write()),
          names: [place, ...(values.length > 1 ? [`line ${line + 1}`] : [])],
          column: () => [],
        }),
      );
      write();
      return output;
    }
    const data =
      kind === 1
        ? randomTable(place, number, random, numbers)
        : kind === 2
          ? randomFigure(place, number, random, numbers)
          : randomValue(place, number, numbers);
    return { output_type: "display_data", data, metadata: {} };
  });
  return { outputs, numbers };
}

type Numbers = RandomOutputs["numbers"][number][];

function randomTable(
  place: string,
  number: () => number,
  random: () => number,
  numbers: Numbers,
): Record<string, unknown> {
  const columns = ["mode", "mean", "cov"].map((key) => ({ key, title: key }));
  const rows = Array.from(
    { length: 1 + Math.floor(random() * 6) },
    (_, index): Record<string, number | string> => ({
      mode: `mode ${index}`,
      mean: number(),
      cov: number(),
    }),
  );
  for (const row of rows)
    for (const key of ["mean", "cov"]) {
      numbers.push({
        get: () => row[key] as number,
        set: (value) => void (row[key] = value),
        names: [place, `row ${row["mode"]}`, `column ${key}`],
        column: () => rows.map((one) => one[key] as number),
      });
    }
  return { [TABLE]: { columns, rows, key: ["mode"] }, "text/plain": "mode  mean  cov" };
}

function randomFigure(
  place: string,
  number: () => number,
  random: () => number,
  numbers: Numbers,
): Record<string, unknown> {
  const traces = Array.from({ length: 1 + Math.floor(random() * 3) }, (_, index) => ({
    type: "scatter",
    name: `t${index}`,
    y: Array.from({ length: 1 + Math.floor(random() * 8) }, number),
  }));
  for (const { name, y } of traces)
    y.forEach((_, point) =>
      numbers.push({
        get: () => y[point]!,
        set: (value) => void (y[point] = value),
        names: [place, `trace "${name}"`, `y[${point + 1}]`],
        column: () => y,
      }),
    );
  const layout = { xaxis: { range: [0, number()] } };
  numbers.push({
    get: () => layout.xaxis.range[1]!,
    set: (value) => void (layout.xaxis.range[1] = value),
    names: [place, "layout.xaxis.range[2]"],
    column: () => layout.xaxis.range,
  });
  return { [FIGURE]: { data: traces, layout }, "image/svg+xml": "<svg/>" };
}

function randomValue(
  place: string,
  number: () => number,
  numbers: Numbers,
): Record<string, unknown> {
  const value = { n: number(), list: [number(), number()] };
  numbers.push({
    get: () => value.n,
    set: (given) => void (value.n = given),
    names: [place, "application/json.n"],
    column: () => [],
  });
  return { "application/json": value };
}
