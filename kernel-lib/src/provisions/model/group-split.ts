import { MISSING } from "./compile";
import { capacityAt, type RowEvaluator, positionOf, type Arguments } from "./evaluate-row";
import type { ProvisionDefinition } from "./definition";

/** One part of a group whose bars act together. */
export interface GroupPart {
  readonly args: Arguments;
  readonly label: string;
}

/**
 * Takes a rectangle of bars apart where the spacing exceeds the critical one, since bars farther apart do not act
 * together (ACI 318-19 17.5.1.3.1). Parts keep their true distances to the edges. Returns one part, the whole, when
 * all bars act together.
 */
export function actingTogether(provision: ProvisionDefinition, evaluator: RowEvaluator, args: Arguments): readonly GroupPart[] {
  const { split } = provision;
  if (!split) return takenApart(evaluator, args, { x: false, y: false });
  const value = (name: string): number => args[evaluator.reads.findIndex((read) => read.name === name)] ?? (name.startsWith("n_") ? 1 : 0);
  const values = new Float64Array(evaluator.symbols.length + 1);
  evaluator.evaluate(args, values, false);
  const critical = (symbol: string | undefined): number => (symbol === undefined ? Infinity : (values[positionOf(evaluator, symbol)] ?? Infinity));
  const apart = { x: value("n_x") > 1 && value("s_x") > critical(split.x), y: value("n_y") > 1 && value("s_y") > critical(split.y) };
  return takenApart(evaluator, args, apart);
}

/** The parts of a group whose bars are apart across (x), along (y) or neither; their distances follow those of the group linearly. */
export function takenApart(evaluator: RowEvaluator, args: Arguments, apart: { readonly x: boolean; readonly y: boolean }): readonly GroupPart[] {
  if (!apart.x && !apart.y) return [{ args, label: "" }];
  const at = (name: string): number => evaluator.reads.findIndex((read) => read.name === name);
  const value = (name: string): number => args[at(name)] ?? (name.startsWith("n_") ? 1 : 0);
  const parts: GroupPart[] = [];
  for (const x of places(value("n_x"), value("s_x"), apart.x)) {
    for (const y of places(value("n_y"), value("s_y"), apart.y)) {
      const part = [...args];
      const set = (name: string, change: (old: number) => number): void => {
        if (at(name) >= 0) part[at(name)] = change(part[at(name)] ?? NaN);
      };
      if (apart.x) {
        set("n_x", () => 1);
        set("s_x", () => 0);
        set("c_1", (c) => c + x.before);
        set("c_3", (c) => c + x.after);
      }
      if (apart.y) {
        set("n_y", () => 1);
        set("s_y", () => 0);
        set("c_2", (c) => c + y.before);
        set("c_4", (c) => c + y.after);
      }
      parts.push({ args: part, label: [apart.x ? `row ${x.number} across` : "", apart.y ? `row ${y.number} along` : ""].filter(Boolean).join(", ") });
    }
  }
  return parts;
}

function places(count: number, spacing: number, apart: boolean): { number: number; before: number; after: number }[] {
  if (!apart) return [{ number: 1, before: 0, after: 0 }];
  return Array.from({ length: count }, (_, k) => ({ number: k + 1, before: k * spacing, after: (count - 1 - k) * spacing }));
}

/** Capacity (edition units) and flags of a row whose group may have to be taken apart. */
export function groupCapacity(provision: ProvisionDefinition, evaluator: RowEvaluator, args: Arguments, design: boolean): { capacity: number; flags: number } {
  const values = new Float64Array(evaluator.symbols.length + 1);
  let capacity = 0;
  const parts = actingTogether(provision, evaluator, args).map((part) => {
    const flags = evaluator.evaluate(part.args, values, design);
    capacity += capacityAt(evaluator, provision, values, design);
    return flags;
  });
  const flags = flagsTogether(provision, parts);
  return { capacity: (flags & withholdingBits(provision)) !== 0 ? NaN : capacity, flags };
}

/** The flags of a group from those of its parts: what fails anywhere fails, but a check is spared only where every part is. */
export function flagsTogether({ limits }: ProvisionDefinition, parts: readonly number[]): number {
  const sparing = limits.reduce((bits, { spares }, k) => (spares ? bits | (1 << k) : bits), 0);
  const [any, all] = [parts.reduce((a, b) => a | b, 0), parts.reduce((a, b) => a & b, -1)];
  return (any & ~sparing) | (all & sparing);
}

/** The flag bits that withhold the capacity: missing inputs and the limits that say "not applicable". */
export function withholdingBits(provision: ProvisionDefinition): number {
  return provision.limits.reduce((bits, limit, k) => (limit.effect === "not_applicable" ? bits | (1 << k) : bits), MISSING);
}
