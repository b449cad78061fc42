import type { DesignComparison, DesignFamily, DesignPoint } from "../provisions";
import type { TableColumn, TableRow } from "./column";
import type { TableText } from "./table-text";
import { Table } from "./table";

/**
 * The capacities of both codes along the embedment, nominal and design, each with the mode that
 * governs it.
 */
export function designCapacityTable(comparison: DesignComparison, text: TableText): Table {
  const { families, diameter } = comparison;
  const columns = families.flatMap(({ code }, c): TableColumn[] => [
    { key: `nominal_${c + 1}`, title: `${code.id}, nominal`, kind: "number", unit: "kN" },
    { key: `design_${c + 1}`, title: `${code.id}, design`, kind: "number", unit: "kN" },
    { key: `mode_${c + 1}`, title: `${code.id}, design governed by`, kind: "text" },
  ]);
  return new Table({
    ...text,
    rowKey: ["embedment"],
    columns: [
      { key: "embedment", title: "embedment", kind: "number", unit: "mm", digits: 4 },
      { key: "diameters", title: "embedment / d", kind: "number", limit: null },
      ...columns,
      { key: "ratio", title: "second / first, design", kind: "number" },
    ],
    rows: families[0].points.map(({ embedment }, k): TableRow => {
      const [one, other] = families.map(({ points }) => points[k]) as [DesignPoint, DesignPoint];
      return {
        embedment,
        diameters: embedment / diameter,
        nominal_1: kN(one.nominal.capacity),
        design_1: kN(one.design.capacity),
        mode_1: one.design.mode,
        nominal_2: kN(other.nominal.capacity),
        design_2: kN(other.design.capacity),
        mode_2: other.design.mode,
        ratio: finite(other.design.capacity / one.design.capacity),
      };
    }),
    notes: [...families.flatMap(rangeNotes), ...(text.notes ?? [])],
  });
}

/**
 * The embedments that both codes need: to develop the bar at each level, and for the design load
 * asked for.
 */
export function designEmbedmentTable(comparison: DesignComparison, text: TableText): Table {
  const { families, load_N } = comparison;
  const need = (
    of: string,
    value: (family: DesignFamily) => number | null | undefined,
  ): Record<string, string | number | null> => ({
    need: of,
    first: value(families[0]) ?? null,
    second: value(families[1]) ?? null,
  });
  return new Table({
    ...text,
    rowKey: ["need"],
    columns: [
      { key: "need", title: "embedment needed", kind: "text" },
      ...families.map(({ code }, c): TableColumn => ({
        key: c === 0 ? "first" : "second",
        title: code.id,
        kind: "number",
        unit: "mm",
        digits: 4,
      })),
    ],
    rows: [
      need("to develop the bar's nominal strength", ({ developsBar }) => developsBar.nominal),
      need("to develop the bar's design strength", ({ developsBar }) => developsBar.design),
      ...(load_N === undefined
        ? []
        : [
            need(
              `for a design load of ${(load_N / 1000).toPrecision(3)} kN`,
              ({ carriesLoad }) => carriesLoad,
            ),
          ]),
    ],
    notes: [
      "Bar strength by each code, including its environmental factor. A dash: no embedment up to 100 d is sufficient.",
      ...(text.notes ?? []),
    ],
  });
}

/**
 * The ratio of the design capacities as a product of factors, one for each assumption; the last row
 * is their product.
 */
export function designFactorTable(comparison: DesignComparison, text: TableText): Table {
  const {
    families: [one, other],
    factors,
    at,
    ratio,
  } = comparison;
  return new Table({
    ...text,
    rowKey: ["assumption"],
    columns: [
      { key: "assumption", title: "assumption", kind: "text" },
      { key: "first", title: one.code.id, kind: "text" },
      { key: "second", title: other.code.id, kind: "text" },
      { key: "factor", title: "factor", kind: "number", digits: 4 },
      { key: "changed_first", title: "if changed first", kind: "number" },
      { key: "changed_last", title: "if changed last", kind: "number" },
    ],
    rows: [
      ...factors.map(({ label, byFirst, bySecond, factor, first, last }) => ({
        assumption: label,
        first: byFirst,
        second: bySecond,
        factor,
        changed_first: first,
        changed_last: last,
      })),
      {
        assumption: "product = ratio of design capacities",
        first: `${kN(one.at.design.capacity)?.toPrecision(4) ?? "–"} kN`,
        second: `${kN(other.at.design.capacity)?.toPrecision(4) ?? "–"} kN`,
        factor: ratio,
        changed_first: null,
        changed_last: null,
      },
    ],
    notes: [
      `At ${String(at)} mm. Assumptions are changed one at a time from the first code to the second. The effect of each depends on those changed before it. The factor given is the geometric mean over all orders, so the product of the factors is the ratio.`,
      "Combinations of two codes are not a capacity of either code. A mode checked by one code only keeps the strength reduction of that code.",
      ...(text.notes ?? []),
    ],
  });
}

/**
 * Where a code gives a value outside its stated range, what it could not judge, and which
 * reductions it does not state.
 */
function rangeNotes({ code, points, unjudged, withoutReduction }: DesignFamily): string[] {
  const limits = [...new Set(points.flatMap(({ outside }) => outside))];
  return [
    ...limits.map((says) => {
      const beyond = points
        .filter(({ outside }) => outside.includes(says))
        .map(({ embedment }) => String(Math.round(embedment)));
      return `${code.id}, outside the stated range ${beyond.length === points.length ? "throughout" : `at ${beyond[0] ?? ""}${beyond.length > 1 ? ` to ${beyond.at(-1) ?? ""}` : ""} mm`}: ${says}.`;
    }),
    ...unjudged.map((says) => `${code.id}, not calculated: ${says}.`),
    ...(withoutReduction.length === 0
      ? []
      : [`${code.id} as coded states no strength reduction for: ${withoutReduction.join("; ")}.`]),
  ];
}

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);
const kN = (newtons: number): number | null => finite(newtons / 1000);
