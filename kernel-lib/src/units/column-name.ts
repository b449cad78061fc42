import { canonicalUnit } from "./factors";

/** A column name taken apart: what is measured, and in which unit (null when no unit is named). */
export interface ColumnNameParts {
  readonly quantity: string;
  readonly unit: string | null;
}

/**
 * Takes the unit off a column name, whether written as a suffix or in brackets.
 * The quantity is brought to lower-case words joined by underscores.
 * @example splitColumnName("peak_load_lbf")     // { quantity: "peak_load", unit: "lbf" }
 * @example splitColumnName("Embedment (in.)")   // { quantity: "embedment", unit: "in" }
 */
export function splitColumnName(name: string): ColumnNameParts {
  const bracketed = /^(.*?)[\s_]*[([]([^()[\]]*)[)\]]\s*$/.exec(name);
  if (bracketed !== null) {
    const unit = canonicalUnit(bracketed[2] ?? "");
    if (unit !== null && (bracketed[2] ?? "").trim() !== "")
      return { quantity: plainName(bracketed[1] ?? ""), unit };
  }
  const suffixed = /^(.*\S)[\s_]+([A-Za-zµμ%][A-Za-z0-9/^²%.]*)$/.exec(name.trim());
  if (suffixed !== null) {
    const suffix = suffixed[2] ?? "";
    // One-letter words are too often symbols (width_m, class_k); of them only m, N and s are read
    // as units.
    const unit =
      suffix.length === 1 && !["m", "N", "s"].includes(suffix) ? null : canonicalUnit(suffix);
    if (unit !== null) return { quantity: plainName(suffixed[1] ?? ""), unit };
  }
  return { quantity: plainName(name), unit: null };
}

/**
 * Lower-case words joined by underscores, with everything but letters and digits dropped: "Peak
 * load" -> "peak_load".
 */
export function plainName(name: string): string {
  return name
    .normalize("NFKD")
    .replace(/([a-z])([A-Z])(?=[a-z])/g, "$1 $2")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "_")
    .replace(/^_+|_+$/g, "");
}
