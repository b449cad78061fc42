import { splitColumnName } from "./column-name";

/** A column as an axis names it. */
export interface ColumnTitle {
  readonly title: string;
  /** Null for a number without a unit, and for words. */
  readonly unit: string | null;
}

const TITLES: Readonly<Record<string, string>> = {
  ratio: "Test-to-predicted ratio",
  embedment_to_diameter: "Embedment over bar diameter",
  capacity_kN: "Predicted capacity",
  load_kN: "Load",
};

/**
 * A column's name as the title of an axis, with the unit that its ending names.
 * @example columnTitle("bar_diameter_mm") // { title: "Bar diameter", unit: "mm" }
 */
export function columnTitle(column: string): ColumnTitle {
  const name = column.replace(/^extra\./, "");
  const { quantity, unit } = splitColumnName(name);
  const words = TITLES[name] ?? (unit === null ? name : quantity).replaceAll("_", " ");
  return {
    title: words.charAt(0).toUpperCase() + words.slice(1),
    unit: unit === "mm2" ? "mm²" : unit,
  };
}

/** "Bar diameter (mm)"; a number without a unit gets (–). */
export function axisTitle(column: string): string {
  const { title, unit } = columnTitle(column);
  return `${title} (${unit ?? "–"})`;
}
