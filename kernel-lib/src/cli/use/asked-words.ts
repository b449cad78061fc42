/** What a user chose of rows and code options. */
export interface AskedRows {
  readonly where?: string | undefined;
  readonly option: readonly string[];
}

/**
 * The choice as titles print it, each part with a semicolon before it; empty where nothing was
 * chosen.
 * @example askedWords({ where: "embedment_mm > 100", option: ["ductile=1"] }) // "; rows where embedment_mm > 100; ductile=1"
 */
export function askedWords({ where, option }: AskedRows): string {
  return [...(where === undefined ? [] : [`rows where ${where}`]), ...option]
    .map((one) => `; ${one.trim()}`)
    .join("");
}

/** The choice as JSON gives it. */
export function askedJson({ where, option }: AskedRows): {
  readonly where: string | null;
  readonly options: Readonly<Record<string, number>>;
} {
  const options = option.map((word): [string, number] => {
    const [name = "", value = ""] = word.split("=");
    return [name.trim(), Number(value)];
  });
  return { where: where ?? null, options: Object.fromEntries(options) };
}
