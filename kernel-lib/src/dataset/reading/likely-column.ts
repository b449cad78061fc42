import { canonicalUnit, splitColumnName, unitDimension } from "../../units";
import type { Column } from "../schema/column";
import { likelyName } from "./likely-name";

/**
 * Symbols and short words of the trade by which other people's tables head our columns. Only for
 * suggestions.
 */
const SYMBOLS: ReadonlyArray<readonly [RegExp, string]> = [
  [/^(d|d_?b|d_?f|dia\.?|[øØφϕΦ⌀])$/i, "bar_diameter_mm"],
  [/^(d_?0|d_?h|hole)$/i, "hole_diameter_mm"],
  [/^(a|a_?b|a_?s|a_?f)$/i, "bar_area_mm2"],
  [/^f['’′]?_?c['’′]?m?(,?\s?(cyl|cube)\w*)?$/i, "concrete_strength_MPa"],
  [/^(f_?u|f_?fu|f_?t|f_?uta)$/i, "bar_strength_MPa"],
  [/^f_?y$/i, "bar_yield_MPa"],
  [/^(h_?ef|l_?b|l_?d|l_?e|l|ℓ|ℓ_?b)$/i, "embedment_mm"],
  [/^(p|n|f|v|q)(_?(u|ult|max|peak|m|exp|test))?\.?$/i, "peak_load_kN"],
  [/^(τ|tau|τ_?\w{1,4}|tau_?\w{1,4}|bond( strength| stress)?|u)$/i, "reported_bond_strength_MPa"],
  [/^(σ|sigma)(_?\w{1,4})?$/i, "peak_bar_stress_MPa"],
  [/^e(_?[bfs])?$/i, "bar_modulus_GPa"],
  [/^(s|δ|Δ|delta|slip)(_?(u|m|max|peak))?$/i, "slip_at_peak_mm"],
  [/^c(_?a?1)?$/i, "edge_1_mm"],
  [/^c_?a?2$/i, "edge_2_mm"],
  [/^(rebar|bar|fib(re|er)) ?(type|kind)?$/i, "bar_material"],
  [/^(specimen|sample|test)( ?(no|nr|id|name|number)\.?)?$/i, "test_id"],
  [/^(reference|ref\.?|paper|author|source)$/i, "study_id"],
  [/^(cracked|crack)$/i, "cracked"],
];

/**
 * The column of a schema that a foreign heading is likely to mean, written with the heading's own
 * unit so that renaming it changes no value ("f'c (psi)" gives concrete_strength_psi); null when
 * none comes near. Never used but to suggest.
 */
export function likelyColumn(
  typed: string,
  unit: string | null,
  candidates: ReadonlyArray<Column>,
): { readonly column: Column; readonly name: string } | null {
  const inBrackets = /[([]([^()[\]]*)[)\]]\s*$/.exec(typed)?.[1] ?? null;
  const named =
    unit ?? splitColumnName(typed).unit ?? (inBrackets === null ? null : canonicalUnit(inBrackets));
  const dimension = named === null ? null : unitDimension(named);
  const fitting =
    dimension === null || dimension === "ratio"
      ? candidates
      : candidates.filter(
          (column) => column.unit !== null && unitDimension(column.unit) === dimension,
        );
  const bare = typed.replace(/[\s_]*[([][^()[\]]*[)\]]\s*$/, "").trim();
  const meant = SYMBOLS.filter(([pattern]) => pattern.test(bare)).map(([, name]) => name);
  const column =
    fitting.find(({ name }) => meant.includes(name)) ??
    fitting.find(
      ({ name }) =>
        name ===
        likelyName(
          typed,
          fitting.map((one) => one.name),
        ),
    );
  if (column === undefined) return null;
  if (named === null || column.unit === null || named === column.unit)
    return { column, name: column.name };
  const { quantity } = splitColumnName(column.name);
  const spelled = `${quantity}_${named}`;
  const back = splitColumnName(spelled);
  // A unit that a name cannot carry stands in brackets.
  return {
    column,
    name: back.quantity === quantity && back.unit === named ? spelled : `${quantity} (${named})`,
  };
}
