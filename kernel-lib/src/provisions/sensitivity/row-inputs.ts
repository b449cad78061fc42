import { TEST_COLUMNS } from "../../dataset";
import { splitColumnName } from "../../units";
import { INPUTS, type InputDefinition, type InputName } from "../inputs/catalogue";
import { Specimens, type TestColumns } from "../inputs/prepare";
import { VariedRow } from "../inputs/varied-row";
import type { CodeDefinition } from "../model/definition";
import type { PredictionSettings } from "../model/predict";

/** A number of a row, or an option of the code, that capacities may follow. */
export interface RowVariable {
  /** Column of the data contract, or name of the option. */
  readonly name: string;
  readonly origin: "column" | "option";
  readonly meaning: string;
  /** As the column states it; options in mm and MPa. */
  readonly value: number;
  readonly unit: string;
  /** The powers with which the symbols of formulas follow it; symbols that do not are left out. */
  readonly powers: ReadonlyMap<string, number>;
}

const OPTION_UNIT: Readonly<Record<string, string>> = {
  length: "mm",
  area: "mm²",
  force: "N",
  stress: "MPa",
  modulus: "MPa",
  slip: "mm",
};

/**
 * The numbers of one row that a code reads, each with the symbols that follow it. A blank or a zero
 * has no elasticity and is left out; counts and conditions do not vary by percent.
 *
 * How symbols follow a column (area from the diameter, cylinder from cube strength) is learnt from
 * the preparation of rows itself, by doubling and halving the cell: preparation only multiplies,
 * and twice a number is exact.
 * @throws Error where a symbol follows a column by anything but a power
 */
export function rowVariables(
  code: CodeDefinition,
  tests: TestColumns,
  i: number,
  settings: PredictionSettings,
  symbols: ReadonlySet<string>,
): RowVariable[] {
  const prepared = (changes: Readonly<Record<string, number>>): Specimens =>
    new Specimens(
      new VariedRow(tests, i, changes, 1),
      settings.level ?? "nominal",
      settings.readings ?? {},
    );
  const own = prepared({});
  const inputs = [...symbols].filter(
    (name): name is InputName => Object.hasOwn(INPUTS, name) && !Object.hasOwn(code.options, name),
  );
  const columns = numberColumns().flatMap(({ name, unit, meaning }): RowVariable[] => {
    const value = tests.has(name) ? (tests.numbers(name)[i] ?? NaN) : NaN;
    if (!Number.isFinite(value) || value === 0) return [];
    const [doubled, halved] = [prepared({ [name]: 2 * value }), prepared({ [name]: value / 2 })];
    const powers = new Map<string, number>();
    for (const symbol of inputs) {
      const at = own.value(symbol, 0);
      const [up, down] = [
        Math.log2(doubled.value(symbol, 0) / at),
        Math.log2(at / halved.value(symbol, 0)),
      ];
      if (!Number.isFinite(up) || up === 0) continue;
      if (up !== down)
        throw new Error(
          `Symbol ${symbol} follows column ${name} with power ${up} above and ${down} below its value, expected one power.`,
        );
      powers.set(symbol, up);
    }
    return powers.size === 0 ? [] : [{ name, origin: "column", meaning, value, unit, powers }];
  });
  const options = Object.entries(code.options).flatMap(
    ([name, { quantity, meaning, value: plain }]): RowVariable[] => {
      const value = settings.options?.[name] ?? plain;
      if (quantity === "number" || value === 0 || !Number.isFinite(value) || !symbols.has(name))
        return [];
      return [
        {
          name,
          origin: "option",
          meaning,
          value,
          unit: OPTION_UNIT[quantity] ?? "",
          powers: new Map([[name, 1]]),
        },
      ];
    },
  );
  return [...columns, ...options];
}

/** Number columns of the contract, and those that only formulas know. */
function numberColumns(): { name: string; unit: string; meaning: string }[] {
  const contract = TEST_COLUMNS.filter(({ kind }) => kind === "number").map(
    ({ name, unit, meaning }) => ({ name, unit: unit ?? "", meaning }),
  );
  const known = new Set(TEST_COLUMNS.map(({ name }) => name));
  const others = (Object.values(INPUTS) as InputDefinition[]).flatMap(
    ({ column, quantity, meaning }) =>
      column === undefined || known.has(column) || quantity === "number"
        ? []
        : [{ name: column, unit: OPTION_UNIT[quantity] ?? "", meaning }],
  );
  return [...contract, ...others];
}

/**
 * A column or option in words, without its unit: `edge_1_mm` gives "edge 1",
 * `bond_strength_char_MPa` "characteristic bond strength".
 */
export function variableWords(name: string): string {
  const words = (
    TEST_COLUMNS.some((column) => column.name === name) || /_(mm2?|MPa|GPa|kN)$/.test(name)
      ? splitColumnName(name).quantity
      : name
  ).replaceAll("_", " ");
  return WORDS[words] ?? words;
}

const WORDS: Readonly<Record<string, string>> = {
  "bond strength char": "characteristic bond strength",
  "bond strength uncracked char": "characteristic bond strength, uncracked",
  "bond strength mean": "mean bond strength",
  "bar strength specified": "specified bar strength",
  "eccentricity x": "eccentricity across",
  "eccentricity y": "eccentricity along",
  "spacing x": "spacing across",
  "spacing y": "spacing along",
};
