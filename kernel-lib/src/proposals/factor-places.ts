import type { Comparison } from "../comparison";
import { FRP_MODES_ACI318, type FactorPlace } from "./one-factor-per-mode";

/**
 * Where a factor of each mode goes in the code of a comparison. For ACI 318-19, in both printed
 * forms, {@link FRP_MODES_ACI318}: the modes in which FRP may behave differently from steel. For
 * another code, the same modes, each with the provision that judged most of its pairs; the other
 * provisions of the mode change by the same factor.
 * @example oneFactorPerMode(derived, factorPlaces(comparison), comparison.tests)
 */
export function factorPlaces({
  code,
  evidence,
  prediction,
}: Comparison): Readonly<Record<string, FactorPlace>> {
  const [printed] = FRP_MODES_ACI318["bond"]!.changes.split("/");
  const own = (id: string): string => id.replace(`${printed}/`, `${code.id}/`);
  const known = new Set(code.provisions.map(({ id }) => id));
  return Object.fromEntries(
    Object.entries(FRP_MODES_ACI318).flatMap(([mode, place]): [string, FactorPlace][] => {
      const { changes, alsoChanges = [], symbol } = place;
      const ids = [changes, ...alsoChanges].map(own);
      if (ids.every((id) => known.has(id)))
        return [
          [
            mode,
            {
              ...place,
              changes: ids[0]!,
              ...(ids.length > 1 ? { alsoChanges: ids.slice(1) } : {}),
            },
          ],
        ];
      const judged = new Map<string, number>();
      for (const one of evidence) {
        const id = prediction.columns[one.column]?.provision.id;
        if (one.mode === mode && id !== undefined) judged.set(id, (judged.get(id) ?? 0) + 1);
      }
      const [first, ...others] = [...judged].sort((a, b) => b[1] - a[1]).map(([id]) => id);
      if (first === undefined) return [];
      return [
        [mode, { changes: first, symbol, ...(others.length > 0 ? { alsoChanges: others } : {}) }],
      ];
    }),
  );
}

/**
 * Further provisions of the family of one, which must not keep the old strength where it changes:
 * the same failure towards other edges. Symbol of the factor where one is usual.
 * @example familyOf("aci318-19/17.7.2") // { alsoChanges: [two edges], symbol: "psi_FRP_V" }
 */
export function familyOf(provision: string): Partial<Pick<FactorPlace, "alsoChanges" | "symbol">> {
  const [id = "", clause = ""] = [
    provision.slice(0, provision.indexOf("/")),
    provision.slice(provision.indexOf("/")),
  ];
  const place = Object.values(FRP_MODES_ACI318).find(({ changes }) => changes.endsWith(clause));
  if (!place || !id.startsWith("aci318-19")) return {};
  const { alsoChanges, symbol } = place;
  return {
    symbol,
    ...(alsoChanges
      ? { alsoChanges: alsoChanges.map((one) => `${id}${one.slice(one.indexOf("/"))}`) }
      : {}),
  };
}
