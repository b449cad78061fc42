const FIBRES = new Set(["gfrp", "bfrp", "cfrp", "afrp", "frp"]);

export { capitalised } from "../statistics/reading";

/**
 * A value of a column in words: `gfrp` gives GFRP, `concrete_breakout` gives "concrete breakout", a
 * blank "(blank)".
 */
export function valueWords(value: string | number | null): string {
  if (value === null) return "(blank)";
  const text = String(value);
  return FIBRES.has(text) ? text.toUpperCase() : text.replaceAll("_", " ");
}

/**
 * A column and its value where the value alone would say nothing: "size 16", "adhesive P",
 * "uncracked".
 */
export function labelWords(column: string, value: string | number | null): string {
  switch (column) {
    case "bar_size":
      return `size ${valueWords(value)}`;
    case "adhesive":
      return value === null ? "no adhesive" : `adhesive ${valueWords(value)}`;
    case "study_id":
      return `study ${value ?? "not stated"}`;
    case "series_id":
      return `series ${value ?? "not stated"}`;
    case "cracked":
      return value === "yes" ? "cracked" : value === "no" ? "uncracked" : "cracking unknown";
    case "bar_material":
    case "bar_class":
    case "bar_surface":
    case "mode":
    case "provision":
    case "failure_mode":
    case "action":
    case "setup":
    case "installation":
      return valueWords(value);
    default:
      return `${column.replaceAll("_", " ")} ${valueWords(value)}`;
  }
}
