import type { ComparisonSettings } from "../../comparison";
import type { TestTable } from "../../dataset";
import { symbolText } from "../../formula";
import { predict, type CodeDefinition, type ProvisionDefinition } from "../../provisions";
import { short, testedScope } from "../tested-scope";
import type { WorkedAnchor } from "./sheet";

/**
 * One anchor of the tests, worked before and after: the single bar nearest to the middle of the
 * tested diameters, embedments and concrete strengths (logarithms, over their spread). Null where no
 * single bar has a capacity.
 */
export function workedAnchor(
  tests: TestTable,
  rows: readonly number[],
  provision: ProvisionDefinition,
  codes: readonly [before: CodeDefinition, after: CodeDefinition],
  settings: ComparisonSettings,
): WorkedAnchor | null {
  const at = (code: CodeDefinition, level: "nominal" | "design"): Float64Array | undefined =>
    predict(code, tests, { ...settings, level }).columns.find(
      (one) => one.provision.id === provision.id,
    )?.capacity;
  const [before, after] = codes.map((code) => at(code, "nominal"));
  const known = (row: number): boolean =>
    !Number.isNaN((before ?? after)?.[row] ?? NaN) && single(tests, row);
  const chosen = middle(tests, rows.filter(known));
  if (chosen === null) return null;
  const value = (of: Float64Array | undefined): number | null => {
    const force = of?.[chosen] ?? NaN;
    return Number.isNaN(force) ? null : force;
  };
  const [old, now] = [value(before), value(after)];
  const stated = before === undefined ? codes[1] : codes[0];
  const phi = (value(at(stated, "design")) ?? NaN) / (old ?? now ?? NaN);
  return {
    test: tests.text(chosen, "test_id") ?? "",
    words: wordsOf(tests, chosen, codes[0]),
    symbol: provision.capacity,
    phi: Number.isFinite(phi) ? phi : null,
    before: old,
    after: now,
  };
}

function single(tests: TestTable, row: number): boolean {
  const { group_nx, group_ny } = tests.row(row);
  return (group_nx ?? 1) * (group_ny ?? 1) === 1;
}

function middle(tests: TestTable, rows: readonly number[]): number | null {
  const columns = ["bar_diameter_mm", "embedment_mm", "concrete_strength_MPa"].map((column) => {
    const logs = rows.map((row) => Math.log(tests.numbers(column)[row] ?? NaN));
    const sorted = logs.filter((one) => !Number.isNaN(one)).sort((a, b) => a - b);
    const center = sorted[Math.floor(sorted.length / 2)] ?? 0;
    const spread = (sorted[sorted.length - 1] ?? 0) - (sorted[0] ?? 0);
    return { logs, center, spread: spread > 0 ? spread : 1 };
  });
  let best: { row: number; distance: number } | null = null;
  rows.forEach((row, k) => {
    const distance = columns.reduce((sum, { logs, center, spread }) => {
      const away = ((logs[k] ?? NaN) - center) / spread;
      return sum + (Number.isNaN(away) ? 1 : away * away);
    }, 0);
    if (best === null || distance < best.distance - 1e-12) best = { row, distance };
  });
  return (best as { row: number } | null)?.row ?? null;
}

/** The anchor in the units of the edition, with the metric ones beside. */
function wordsOf(tests: TestTable, row: number, code: CodeDefinition): string {
  const { ranges } = testedScope(tests, [row], code);
  const { bar_material, cracked, bond_strength_char_MPa, installation } = tests.row(row);
  const material = { gfrp: "GFRP", bfrp: "BFRP", cfrp: "CFRP", afrp: "AFRP" }[
    bar_material as string
  ];
  const tau = bond_strength_char_MPa;
  const parts = ranges
    .filter(({ symbol }) => !symbol.includes("/") && symbol !== "s")
    .map(({ symbol, lower, unit, lowerSi, unitSi }) =>
      unit === unitSi
        ? `${symbolText(symbol)} ${short(lower)} ${unit}`
        : `${symbolText(symbol)} ${short(lower)} ${unit} (${short(lowerSi)} ${unitSi})`,
    );
  const stress = code.system.inSi.stress;
  return [
    `One ${material ?? bar_material ?? ""} bar${installation === "post_installed" ? " bonded into a drilled hole" : ""}`,
    ...parts,
    ...(tau === null
      ? []
      : [
          `${symbolText("tau_k")} ${short(tau / stress)} ${code.system.unit.stress} (${short(tau)} MPa)`,
        ]),
    ...(cracked === null ? [] : [cracked === "yes" ? "cracked concrete" : "uncracked concrete"]),
  ].join(", ");
}
