import { readdirSync, readFileSync } from "node:fs";
import type { TestRowInput } from "../../../../kernel-lib/src/dataset";
import type { CodeDefinition, DevelopmentCase, Level } from "../../../../kernel-lib/src/provisions";

/**
 * One seeded specimen of the JSON files beside this one, with what Python found for every provision
 * of the file's codes.
 */
export interface SpreadCase {
  readonly id: string;
  readonly row: Partial<TestRowInput>;
  readonly options: Readonly<Record<string, number>>;
  /** Options of one code, over the common ones. */
  readonly options_of: Readonly<Record<string, Readonly<Record<string, number>>>>;
  /** By code, provision and level; null where the provision has no value. */
  readonly forces_N: Readonly<Record<string, number | null>>;
  /**
   * Placing rules that concern the specimen, by code and id: the value judged (null: no edge is
   * near) and the least, mm.
   */
  readonly details_mm?: Readonly<
    Record<string, Readonly<Record<string, readonly [value: number | null, least: number]>>>
  >;
  readonly stress_MPa?: number;
  /** Development length for `stress_MPa`, by code and clause. */
  readonly lengths_mm?: Readonly<Record<string, number>>;
}

/** One call of an interaction, a bend or a bond law. */
export interface FunctionCase {
  readonly code: string;
  readonly rule: string;
  readonly call: string;
  readonly arguments: readonly (number | string | boolean)[];
  readonly value: number;
  /** Whether the bound is kept; null where there is none. */
  readonly holds: boolean | null;
}

const read = (name: string): unknown =>
  JSON.parse(readFileSync(`${import.meta.dirname}/${name}`, "utf8"));
const FUNCTIONS = "functions.json";

/** The files of specimens, each by the script of its name. */
export const spreadFiles = (): string[] =>
  readdirSync(import.meta.dirname)
    .filter((name) => name.endsWith(".json") && name !== FUNCTIONS)
    .sort();

/** The specimens of one file. */
export const specimensOf = (file: string): readonly SpreadCase[] =>
  read(file) as readonly SpreadCase[];

/** The specimens of every file. */
export const spreadCases = (): SpreadCase[] => spreadFiles().flatMap(specimensOf);

export const functionCases = (): readonly FunctionCase[] =>
  read(FUNCTIONS) as readonly FunctionCase[];

/** A key of `forces_N` apart. */
export function keyParts(key: string): {
  readonly code: string;
  readonly provision: string;
  readonly level: Level;
} {
  const [code = "", provision = "", level = ""] = key.split(" ");
  return { code, provision, level: level as Level };
}

/** The options of a case that a code has. */
export function optionsFor(
  one: SpreadCase,
  code: CodeDefinition,
): Readonly<Record<string, number>> {
  const stated = { ...one.options, ...one.options_of[code.id] };
  return Object.fromEntries(
    Object.entries(stated).filter(([name]) => Object.hasOwn(code.options, name)),
  );
}

/** A bar of the rows as one whose length is asked. */
export function barOf({ row, stress_MPa }: SpreadCase): DevelopmentCase {
  const steel = row.bar_material === "steel" ? 1 : 0;
  return {
    f_required: stress_MPa ?? NaN,
    d_a: row.bar_diameter_mm ?? NaN,
    A_b: row.bar_area_mm2 ?? NaN,
    f_c: row.concrete_strength_MPa ?? NaN,
    c_cover: row.cover_mm ?? NaN,
    s_clear: row.bar_spacing_mm ?? Infinity,
    E_b: (row.bar_modulus_GPa ?? NaN) * 1000,
    top_cast: row.casting_position === "top" ? 1 : 0,
    lightweight: row.concrete_type === "lightweight" ? 1 : 0,
    steel,
    frp: 1 - steel,
    f_y_stated: row.bar_yield_MPa ?? 0,
    [row.bar_material ?? ""]: 1,
    [row.bar_surface ?? ""]: 1,
  };
}
