import { valueWords } from "../comparison";
import { changedProvisions, type ChangeEvidence } from "../proposals";
import type { TableText } from "./table-text";
import { Table } from "./table";

/** The changes of a proposal: where, by what, and whether the tests support each. */
export function changesTable(found: readonly ChangeEvidence[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["change"],
    columns: [
      { key: "change", title: "change", kind: "integer" },
      { key: "provision", title: "provision", kind: "text" },
      { key: "factor", title: "factor", kind: "text" },
      { key: "where", title: "where", kind: "text" },
      { key: "says", title: "in words", kind: "text" },
      {
        key: "supported",
        title: "supported",
        kind: "text",
        note: "whether the tests show that a reduction is needed: the upper bound of the factor is below 1.0 in every group it changes",
      },
      { key: "reason", title: "reason", kind: "text" },
    ],
    rows: found.map(({ proposal, supported, reason }, k) => ({
      change: k + 1,
      provision: changedProvisions(proposal).join(", "),
      factor:
        "factor" in proposal
          ? proposal.factor
          : "kind" in proposal && proposal.kind === "addition"
            ? "new"
            : "not permitted",
      where: "where" in proposal ? proposal.where : null,
      says: proposal.says,
      supported: supported ? "yes" : "no",
      reason,
    })),
  });
}

/** The tests behind each change, by mode and material, with the factor that they require. */
export function changeEvidenceTable(found: readonly ChangeEvidence[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["change", "mode", "material"],
    columns: [
      { key: "change", title: "change", kind: "integer" },
      { key: "provision", title: "provision", kind: "text" },
      { key: "mode", title: "mode", kind: "text" },
      { key: "material", title: "material", kind: "text" },
      { key: "n", title: "n", kind: "integer" },
      { key: "n_lower_bounds", title: "lower bounds", kind: "integer" },
      { key: "series", title: "series", kind: "integer" },
      { key: "studies", title: "studies", kind: "integer" },
      {
        key: "applied",
        title: "factor applied",
        kind: "number",
        note: "geometric mean where the factor varies; blank where the provision is withdrawn",
      },
      {
        key: "required",
        title: "factor required",
        kind: "number",
        note: "by these tests and the criterion of the change, not rounded; blank for steel and where none is derived",
      },
      { key: "upper", title: "upper bound", kind: "number" },
      { key: "diameter", title: "bar diameter, mm", kind: "text" },
      { key: "embedment", title: "embedment, mm", kind: "text" },
      { key: "strength", title: "concrete, MPa", kind: "text" },
    ],
    rows: found.flatMap(({ proposal, groups, factors, applied, limits }, k) =>
      groups.map((group) => {
        const own = factors.find(({ label }) => label === group.label);
        const range = (column: string): string | null => {
          const one = limits.find((limit) => limit.column === column);
          return one
            ? `${Number(one.lower.toPrecision(3))} to ${Number(one.upper.toPrecision(3))}`
            : null;
        };
        return {
          change: k + 1,
          provision: changedProvisions(proposal)[0] ?? "",
          mode: valueWords(group.by["mode"] ?? null),
          material: valueWords(group.by["bar_material"] ?? null),
          n: group.n,
          n_lower_bounds: group.lowerBounds,
          series: group.series,
          studies: group.studies,
          applied: applied.get(group.label) ?? null,
          required: own?.exact ?? null,
          upper: own?.criteria[own.criterion].upper ?? null,
          diameter: range("bar_diameter_mm"),
          embedment: range("embedment_mm"),
          strength: range("concrete_strength_MPa"),
        };
      }),
    ),
  });
}
