import type { Column } from "./column";

type Limits = Partial<Pick<Column, "required" | "minimum" | "above" | "maximum" | "open">>;

export const text = (name: string, meaning: string, required = false): Column => ({
  name,
  kind: "text",
  unit: null,
  required,
  meaning,
});
export const category = (
  name: string,
  categories: ReadonlyArray<string>,
  meaning: string,
  limits: Limits = {},
): Column => ({
  name,
  kind: "category",
  unit: null,
  required: false,
  categories,
  meaning,
  ...limits,
});
export const number = (
  name: string,
  unit: string | null,
  meaning: string,
  limits: Limits = {},
): Column => ({ name, kind: "number", unit, required: false, meaning, ...limits });
export const integer = (name: string, meaning: string, limits: Limits = {}): Column => ({
  name,
  kind: "integer",
  unit: null,
  required: false,
  meaning,
  ...limits,
});
export const positive = { above: 0 };
export const notNegative = { minimum: 0 };
