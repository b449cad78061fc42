import { symbolText, toText } from "../../formula";
import {
  symbolsInWords,
  type Quantity,
  type Trace,
  type TraceLine,
  type TracePart,
} from "../../provisions";
import { addressOf, type Cell } from "../../tables";
import { liveFormula } from "./live-formula";

/**
 * Stands for "far" where the library has infinity, which a spreadsheet lacks; it can be squared
 * without overflow.
 */
export const FAR = 1e150;
/** Relative difference up to which sheet and library count as the same. */
export const SAME = 1e-9;
export const VALUE = 4;
const LIBRARY = 6;
export const DIFFERENCE = 7;

export class Layout {
  readonly rows: Cell[][] = [];
  readonly merged: number[] = [];
  readonly #trace: Trace;

  constructor(trace: Trace) {
    this.#trace = trace;
  }

  row(cells: Cell[]): void {
    this.rows.push(cells);
  }

  text(cell: Cell): void {
    this.rows.push([cell]);
    this.merged.push(this.rows.length);
  }

  /**
   * Inputs and steps of one part; returns the address of its capacity in the edition's force unit.
   */
  part(part: TracePart): string {
    const address = new Map<string, string>();
    const cell = (name: string): string => {
      const found = address.get(name);
      if (found === undefined)
        throw new Error(
          `Step reads "${name}" before it is given; expected one of ${[...address.keys()].join(", ")}.`,
        );
      return found;
    };
    this.#section(`Inputs${part.label ? `, ${part.label}` : ""}`);
    for (const line of part.inputs)
      address.set(
        line.symbol,
        this.input(
          symbolText(line.symbol),
          line.meaning,
          line.clause,
          line.value,
          line.unit,
          this.#inSi(line),
        ),
      );
    this.#section(`Steps${part.label ? `, ${part.label}` : ""}`);
    for (const line of part.steps) {
      if (!line.expression) continue;
      const text = line.symbol === "design_capacity" ? "design capacity" : symbolText(line.symbol);
      address.set(
        line.symbol,
        this.#step(text, line, liveFormula(line.expression, cell), toText(line.expression)),
      );
    }
    const { provision, level } = this.#trace;
    return cell(level === "design" && provision.reduction ? "design_capacity" : provision.capacity);
  }

  input(
    symbol: string,
    meaning: string,
    clause: string,
    value: number,
    unit: string,
    si: readonly [factor: number, unit: string] | null = null,
  ): string {
    const at = this.rows.length;
    const address = addressOf(VALUE, at);
    const given: Cell = Number.isNaN(value)
      ? { value: "#N/A", formula: "NA()", look: "input" }
      : { value: finite(value), look: "input" };
    this.row([
      symbol,
      { value: symbolsInWords(meaning), look: "wrapped" },
      { value: clause, look: "wrapped" },
      "given",
      given,
      { value: unit, look: "unit" },
      library(value),
      ...this.#compared(at, value),
      ...this.#si(address, value, si),
    ]);
    return address;
  }

  result(symbol: string, meaning: string, formula: string, value: number, unit: string): string {
    const at = this.rows.length;
    this.row([
      { value: symbol, look: "strong" },
      { value: meaning, look: "wrapped" },
      null,
      null,
      { value: finite(value), formula, look: "result" },
      { value: unit, look: "unit" },
      library(value),
      ...this.#compared(at, value),
    ]);
    return addressOf(VALUE, at);
  }

  limits(trace: Trace): void {
    const limits = trace.parts[0]?.limits ?? [];
    if (limits.length === 0) return;
    this.row([
      {
        value: "Limits of applicability, as judged by the library for the values as they were",
        look: "section",
      },
      ...Array.from({ length: 10 }, (): Cell => ({ value: null, look: "section" })),
    ]);
    for (const { clause, says, holds } of limits)
      this.row([
        holds === null ? "not judged" : holds ? "holds" : "fails",
        { value: says, look: "wrapped" },
        { value: clause, look: "wrapped" },
      ]);
  }

  #section(title: string): void {
    this.row([
      { value: title, look: "section" },
      ...Array.from({ length: 10 }, (): Cell => ({ value: null, look: "section" })),
    ]);
  }

  #step(symbol: string, line: TraceLine, formula: string, text: string): string {
    const at = this.rows.length;
    const address = addressOf(VALUE, at);
    this.row([
      symbol,
      { value: symbolsInWords(line.meaning), look: "wrapped" },
      { value: line.clause, look: "wrapped" },
      { value: text, look: "wrapped" },
      { value: Number.isNaN(line.value) ? "#N/A" : finite(line.value), formula },
      { value: line.unit, look: "unit" },
      library(line.value),
      ...this.#compared(at, line.value),
      ...this.#si(address, line.value, this.#inSi(line)),
    ]);
    return address;
  }

  #compared(row: number, value: number): Cell[] {
    const [ours, theirs, difference] = [VALUE, LIBRARY, DIFFERENCE].map((column) =>
      addressOf(column, row),
    );
    if (Number.isNaN(value)) return [null, "not given"];
    return [
      // Beyond the square root of "far" both stand for infinity.
      {
        value: 0,
        formula: `IF(AND(ABS(${ours})>1E+70,ABS(${theirs})>1E+70),0,IF(${theirs}=0,ABS(${ours}),ABS(${ours}/${theirs}-1)))`,
      },
      {
        value: "agrees",
        formula: `IF(${difference}<=${SAME.toExponential().toUpperCase()},"agrees","differs")`,
        look: "unit",
      },
    ];
  }

  #si(address: string, value: number, si: readonly [factor: number, unit: string] | null): Cell[] {
    if (si === null || Number.isNaN(value)) return [];
    return [
      { value: finite(value * si[0]), formula: `${address}*${si[0]}` },
      { value: si[1], look: "unit" },
    ];
  }

  /** Factor from the edition's unit to the one shown in SI; null where they are the same. */
  #inSi(line: TraceLine): readonly [number, string] | null {
    if (line.unit === line.unitSi || line.unitSi === "") return null;
    const { unit, inSi } = this.#trace.code.system;
    const quantity = (Object.keys(unit) as Quantity[]).find((one) => unit[one] === line.unit);
    if (quantity === undefined) return null;
    return [
      inSi[quantity] / (line.unitSi === "kN" || line.unitSi === "GPa" ? 1000 : 1),
      line.unitSi,
    ];
  }
}

function finite(value: number): number {
  return value === Infinity ? FAR : value === -Infinity ? -FAR : value;
}

function library(value: number): Cell {
  return Number.isNaN(value) ? "not given" : finite(value);
}
