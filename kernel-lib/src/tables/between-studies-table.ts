import { capitalised, valueWords, type BondStressByStudy } from "../comparison";
import { pWords, shareText } from "../statistics/reading";
import type { TableText } from "./table-text";
import { Table } from "./table";

/** How much of the scatter of bond stress lies between studies, one bar material a row. */
export function betweenStudiesTable(found: readonly BondStressByStudy[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["material"],
    columns: [
      { key: "material", title: "bar material", kind: "text" },
      { key: "n", title: "tests", kind: "integer" },
      { key: "studies", title: "studies", kind: "integer" },
      {
        key: "between",
        title: "SD between studies",
        kind: "number",
        digits: 2,
        note: "of ln(bond stress); about the coefficient of variation",
      },
      {
        key: "lower",
        title: "95 % from",
        kind: "number",
        digits: 2,
        limit: null,
        note: "profile likelihood",
      },
      { key: "upper", title: "to", kind: "number", digits: 2, limit: null },
      { key: "within", title: "SD within studies", kind: "number", digits: 2 },
      {
        key: "share",
        title: "between-study share",
        kind: "number",
        decimals: 2,
        limit: null,
        note: "of the variance (ICC)",
      },
      {
        key: "p",
        title: "p",
        kind: "number",
        digits: 2,
        limit: null,
        note: "likelihood-ratio test of no study effect",
      },
      { key: "remark", title: "remark", kind: "text" },
    ],
    rows: found.map(({ material, tests, model, reason }) => ({
      material: valueWords(material),
      n: tests.length,
      studies: new Set(tests.map(({ study }) => study)).size,
      between: model?.betweenStudySd.estimate ?? null,
      lower: model?.betweenStudySd.lower ?? null,
      upper: finiteOrNull(model?.betweenStudySd.upper),
      within: model?.withinStudySd.estimate ?? null,
      share: model?.intraclassCorrelation ?? null,
      p: model?.studyTest.p ?? null,
      remark: model === null ? reason : model.warnings.join("; ") || null,
    })),
    notes: [
      ...(text.notes ?? []),
      "Mixed model of ln(bond stress): set-up as a fixed, study as a random effect.",
    ],
  });
}

/** The same in one sentence a material. */
export function betweenStudiesWords(found: readonly BondStressByStudy[]): string[] {
  return found.map(({ material, tests, model, reason }) => {
    const of = `${valueWords(material)} bond stress`;
    if (model === null)
      return `${capitalised(of)}: between-study scatter cannot be estimated. ${reason ?? ""}.`;
    const share = shareText(model.intraclassCorrelation);
    return `${capitalised(of)}: share of the variance between ${String(model.studies.length)} studies ${share} (${pWords(model.studyTest.p)}; ${String(tests.length)} tests).`;
  });
}

function finiteOrNull(value: number | undefined): number | null {
  return value === undefined || !Number.isFinite(value) ? null : value;
}
