import { BAR_MATERIALS, BAR_SURFACES } from "../dataset";
import { INPUTS, type CodeDefinition, type Quantity } from "../provisions";

/** What a column is asked for: a value, a list, anything but, or a range with both ends. */
type Asked =
  | string
  | number
  | readonly (string | number)[]
  | { readonly not: string | number | readonly (string | number)[] }
  | { readonly from?: number; readonly to?: number };

/** Formula of a condition that every bar meets. */
export const EVERY_BAR = "steel == 1 || frp == 1";

const FLAGS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  bar_class: { steel: "steel == 1", frp: "frp == 1" },
  bar_material: Object.fromEntries(BAR_MATERIALS.map((name) => [name, `${name} == 1`])),
  bar_surface: Object.fromEntries(
    BAR_SURFACES.map((name) => [name, `${name === "unknown" ? "surface_unknown" : name} == 1`]),
  ),
  installation: { post_installed: "post_installed == 1", cast_in: "post_installed == 0" },
  cracked: { yes: "cracked == 1", no: "cracked == 0" },
  casting_position: { top: "top_cast == 1", good: "top_cast == 0" },
};

/** A column may be read by several symbols; the first one is the quantity itself. */
const SYMBOLS: ReadonlyMap<string, readonly [symbol: string, quantity: Quantity]> = new Map(
  Object.entries(INPUTS)
    .reverse()
    .flatMap(([symbol, { quantity, ...one }]) =>
      "column" in one && !(one.column in FLAGS) && /_(mm2?|MPa|GPa)$|^group_n/.test(one.column)
        ? [[one.column, [symbol, quantity] as const] as const]
        : [],
    ),
);

/** The columns that the condition of a provision can be stated in. */
export const CONDITION_COLUMNS: readonly string[] = [...Object.keys(FLAGS), ...SYMBOLS.keys()];

/**
 * The symbol by which formulas of a code read a number column, the unit in which they read it, and
 * that unit in the unit of the column; null where no formula reads it.
 * @example columnSymbol("bar_diameter_mm", code("aci318-19")) // { symbol: "d_a", unit: "in.", size: 25.4 }
 */
export function columnSymbol(
  column: string,
  { system }: Pick<CodeDefinition, "system">,
): { readonly symbol: string; readonly unit: string; readonly size: number } | null {
  const found = SYMBOLS.get(column);
  if (found === undefined) return null;
  const [symbol, quantity] = found;
  // Elastic moduli stand in GPa in the data and in MPa in formulas.
  const scale = column.endsWith("_GPa") ? 1000 : 1;
  return { symbol, unit: system.unit[quantity], size: system.inSi[quantity] / scale };
}

/**
 * A condition on columns of the tests in the formula language of proposals, numbers in the units of
 * the code. Several columns are joined by "and", the values of a list by "or".
 *
 * Limits: only what a provision can read, {@link CONDITION_COLUMNS}. A blank edge distance is remote
 * for a provision, so that it meets "at least". Concrete strength is that of a cylinder.
 * @throws RangeError for a column or value that no symbol stands for
 * @example
 * conditionFormula({ bar_class: "frp", bar_diameter_mm: { to: 16 } }, code("en1992-4-2018"))
 * // "frp == 1 && d_a <= 16"
 */
export function conditionFormula(
  wanted: Readonly<Record<string, unknown>>,
  code: Pick<CodeDefinition, "system">,
): string {
  const parts = Object.entries(wanted)
    .filter(([, asked]) => asked !== undefined)
    .map(([column, asked]) => columnFormula(column, asked as Asked, code));
  if (parts.length === 0) return EVERY_BAR;
  return parts
    .map((part) => (parts.length > 1 && part.includes("||") ? `(${part})` : part))
    .join(" && ");
}

function columnFormula(column: string, asked: Asked, code: Pick<CodeDefinition, "system">): string {
  const equal = (value: string | number, operator: "==" | "!=" = "=="): string => {
    const flag = FLAGS[column]?.[String(value)];
    if (flag !== undefined)
      return operator === "==" ? flag : flag.replace(/== ([01])$/, (_, k) => `== ${1 - Number(k)}`);
    return `${named(column, value, code)} ${operator} ${inUnit(column, value, code)}`;
  };
  if (Array.isArray(asked))
    return (asked as readonly (string | number)[]).map((value) => equal(value)).join(" || ");
  if (typeof asked !== "object") return equal(asked);
  if ("not" in asked) {
    const values = Array.isArray(asked.not) ? asked.not : [asked.not];
    return (values as readonly (string | number)[]).map((one) => equal(one, "!=")).join(" && ");
  }
  const { from, to } = asked as { readonly from?: number; readonly to?: number };
  const ends = [
    ...(from === undefined ? [] : [`>= ${inUnit(column, from, code)}`]),
    ...(to === undefined ? [] : [`<= ${inUnit(column, to, code)}`]),
  ];
  if (ends.length === 0)
    throw new RangeError(
      `The condition on ${column}, ${JSON.stringify(asked)}, states nothing; expected a value, a list, { not } or { from, to }.`,
    );
  return ends.map((end) => `${named(column, from ?? to ?? null, code)} ${end}`).join(" && ");
}

function named(column: string, value: unknown, code: Pick<CodeDefinition, "system">): string {
  const found = columnSymbol(column, code);
  if (found !== null) return found.symbol;
  const words = FLAGS[column];
  throw new RangeError(
    words === undefined
      ? `No provision reads the column ${column}; expected a condition on ${CONDITION_COLUMNS.join(", ")}.`
      : `No provision reads ${column} ${JSON.stringify(value)}; expected ${Object.keys(words).join(", ")}.`,
  );
}

function inUnit(column: string, value: unknown, code: Pick<CodeDefinition, "system">): string {
  if (typeof value !== "number" || !Number.isFinite(value))
    throw new RangeError(
      `The condition on ${column} is ${JSON.stringify(value)}; expected a number in the unit of the column.`,
    );
  return String(value / (columnSymbol(column, code)?.size ?? 1));
}
