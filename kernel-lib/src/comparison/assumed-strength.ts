import { TestTable, TO_CYLINDER } from "../dataset";
import { compare } from "./compare";
import { type Comparison, type ComparisonSettings } from "./comparison";

/** How far ratios rest on concrete strengths whose specimen nobody stated. */
export interface AssumedStrength {
  /** Ratios whose strength was taken for a cylinder's by assumption, and all ratios. */
  readonly n: number;
  readonly of: number;
  /** Mean of those ratios as assumed. */
  readonly mean: number;
  /**
   * Their mean if every one of these strengths was that of a 100 mm cube, the other end of what
   * laboratories use.
   */
  readonly meanIfCubes: number;
  readonly reading: string;
}

/**
 * The ratios that rest on `cylinder_assumed` strengths, recomputed as if all these were strengths
 * of 100 mm cubes; null where there are none. The two means bound what the assumption can move,
 * whatever exponent the code puts on concrete strength.
 * @param settings those of the comparison
 * @example
 * assumedStrength(compare(tests, code("wambeke-shield-2006"), { level: "expected" }), { level: "expected" })?.reading
 */
export function assumedStrength(
  comparison: Comparison,
  settings: ComparisonSettings = {},
): AssumedStrength | null {
  const { tests, code, evidence } = comparison;
  const bases = tests.texts("concrete_strength_basis");
  const assumed = evidence.filter(({ row, bound }) => bases[row] === "cylinder_assumed" && !bound);
  if (assumed.length === 0) return null;
  const rows = [...new Set(assumed.map(({ row }) => row))];
  const cubes = TestTable.fromRows(
    rows.map((row) => ({ ...tests.row(row), concrete_strength_basis: "cube_100" })),
  );
  const place = new Map(rows.map((row, k) => [row, k]));
  const other = new Map(
    compare(cubes, code, { ...settings, scope: comparison.scope }).evidence.map((one) => [
      `${String(one.row)} ${one.mode}`,
      one.ratio,
    ]),
  );
  // A mode that no longer governs leaves its test's ratio as it was.
  const mean = (ratios: readonly number[]): number =>
    ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length;
  const [asAssumed, asCubes] = [
    mean(assumed.map(({ ratio }) => ratio)),
    mean(
      assumed.map(
        ({ row, mode, ratio }) => other.get(`${String(place.get(row))} ${mode}`) ?? ratio,
      ),
    ),
  ];
  const of = evidence.filter(({ bound }) => !bound).length;
  return {
    n: assumed.length,
    of,
    mean: asAssumed,
    meanIfCubes: asCubes,
    reading: `${String(assumed.length)} of ${String(of)} ratios use a concrete strength of an unknown specimen, treated as a cylinder strength. If it were a 100 mm cube strength (${String(TO_CYLINDER.cube_100.factor)} of it), their mean would be ${asCubes.toFixed(2)} instead of ${asAssumed.toFixed(2)}.`,
  };
}
