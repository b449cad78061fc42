import { SMALL_SAMPLE, type IndexByMethod, type ReliabilityOfGroup } from "../proposals";
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
        note: "mean resistance divided by nominal",
      },
      { key: "professional", title: "V_P", kind: "number", digits: 2, limit: null },
      { key: "material", title: "V_M", kind: "number", digits: 2, limit: null },
      { key: "fabrication", title: "V_F", kind: "number", digits: 2, limit: null },
      { key: "cov", title: "V_R", kind: "number", digits: 2, limit: null },
      { key: "present", title: "present φ", kind: "number" },
      { key: "least", title: "least index β", kind: "number", limit: null },
      { key: "required", title: "required φ", kind: "number", note: "first order, at the target" },
      {
        key: "test_based",
        title: "test-based φ",
        kind: "number",
        note: "equation of AISI S100, K2.1, from failures only",
      },
    ],
    rows: found.map(({ label, n, lowerBounds, phi, resistance, least, forTarget, testBased }) => ({
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
      test_based: testBased?.factor ?? null,
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
        note: "its contribution to the scatter at the design point",
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

/** The sensitivity factors of each group at one share of live load. */
export function sensitivityTable(
  found: readonly ReliabilityOfGroup[],
  share: number,
  text: TableText,
): Table {
  return new Table({
    ...text,
    rowKey: ["group", "variable"],
    columns: [
      { key: "group", title: "group", kind: "text" },
      { key: "variable", title: "variable", kind: "text" },
      { key: "alpha", title: "α", kind: "number", digits: 2, limit: null },
      {
        key: "share",
        title: "α²",
        kind: "number",
        digits: 2,
        limit: null,
        note: "share of the scatter at the design point; the shares of a group add to 1",
      },
    ],
    rows: found.flatMap(({ label, overShares }) =>
      overShares
        .filter(({ variableShare }) => variableShare === share)
        .flatMap(({ reliability }) =>
          reliability.sensitivity.map((one) => ({
            group: label,
            variable: one.name,
            alpha: one.alpha,
            share: one.share,
          })),
        ),
    ),
  });
}

/** The test-based strength reduction of each group, and that of a small sample. */
export function testBasedTable(found: readonly ReliabilityOfGroup[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["group"],
    columns: [
      { key: "group", title: "group", kind: "text" },
      { key: "n", title: "n", kind: "integer", note: "failures" },
      { key: "mean", title: "P_m", kind: "number" },
      { key: "scatter", title: "V_P", kind: "number", limit: null, note: "at least 0.065" },
      { key: "correction", title: "C_P", kind: "number", limit: null },
      { key: "phi", title: "φ", kind: "number" },
      { key: "correction_small", title: `C_P, ${SMALL_SAMPLE} tests`, kind: "number", limit: null },
      {
        key: "phi_small",
        title: `φ, ${SMALL_SAMPLE} tests`,
        kind: "number",
        note: "for this number of tests with the same mean and scatter",
      },
    ],
    rows: found.map(({ label, n, testBased, ofSmallSample }) => ({
      group: label,
      n,
      mean: testBased?.professionalMean ?? null,
      scatter: testBased?.professionalCov ?? null,
      correction: testBased?.sampleCorrection ?? null,
      phi: testBased?.factor ?? null,
      correction_small: ofSmallSample?.sampleCorrection ?? null,
      phi_small: ofSmallSample?.factor ?? null,
    })),
  });
}
