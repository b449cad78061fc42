import type { IndexByMethod, ReliabilityOfGroup } from "../proposals";
import type { TableText } from "./table-text";
import { Table } from "./table";

/** The strength reduction that the target index requires, beside that of the code. */
export function strengthReductionTable(
  found: readonly ReliabilityOfGroup[],
  text: TableText,
): Table {
  return new Table({
    ...text,
    rowKey: ["group"],
    columns: [
      { key: "group", title: "group", kind: "text" },
      { key: "n", title: "n", kind: "integer" },
      { key: "n_lower_bounds", title: "lower bounds", kind: "integer" },
      {
        key: "bias",
        title: "R / R_n",
        kind: "number",
        note: "mean resistance over nominal, of a further test of a further series in the cell that decides",
      },
      { key: "professional", title: "V_P", kind: "number", digits: 2, limit: null },
      { key: "material", title: "V_M", kind: "number", digits: 2, limit: null },
      { key: "fabrication", title: "V_F", kind: "number", digits: 2, limit: null },
      { key: "cov", title: "V_R", kind: "number", digits: 2, limit: null },
      { key: "present", title: "present φ", kind: "number" },
      { key: "least", title: "least index β", kind: "number", limit: null },
      { key: "required", title: "required φ", kind: "number" },
    ],
    rows: found.map(({ label, n, lowerBounds, phi, resistance, least, forTarget }) => ({
      group: label,
      n,
      n_lower_bounds: lowerBounds,
      bias: resistance?.bias ?? null,
      professional: resistance?.professional.cov ?? null,
      material: resistance?.material.cov ?? null,
      fabrication: resistance?.fabrication.cov ?? null,
      cov: resistance?.cov ?? null,
      present: phi,
      least: least?.reliability.index ?? null,
      required: forTarget?.factor ?? null,
    })),
  });
}

/** The index of each group at each load ratio. */
export function indexTable(found: readonly ReliabilityOfGroup[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["group", "share"],
    columns: [
      { key: "group", title: "group", kind: "text" },
      { key: "share", title: "L / (D + L)", kind: "number", digits: 2, limit: null },
      { key: "combination", title: "combination", kind: "text" },
      { key: "phi", title: "φ", kind: "number" },
      { key: "index", title: "β", kind: "number", limit: null },
      {
        key: "resistance",
        title: "α² of the resistance",
        kind: "number",
        digits: 2,
        limit: null,
        note: "its share of the scatter at the design point",
      },
    ],
    rows: found.flatMap(({ label, phi, overShares }) =>
      overShares.map(({ variableShare, combination, reliability }) => ({
        group: label,
        share: variableShare,
        combination,
        phi,
        index: reliability.index,
        resistance:
          reliability.sensitivity.find(({ name }) => name === "resistance")?.share ?? null,
      })),
    ),
  });
}

/** The index by several methods. */
export function methodsTable(found: readonly IndexByMethod[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["group", "method"],
    columns: [
      { key: "group", title: "group", kind: "text" },
      { key: "method", title: "method", kind: "text" },
      { key: "index", title: "β", kind: "number", digits: 4, limit: null },
      {
        key: "lower",
        title: "95 % from",
        kind: "number",
        digits: 4,
        limit: null,
        note: "1.96 standard errors of the sampled failure probability; blank for a method without sampling",
      },
      { key: "upper", title: "to", kind: "number", digits: 4, limit: null },
    ],
    rows: found.map(({ label, ...one }) => ({ group: label, ...one })),
  });
}
