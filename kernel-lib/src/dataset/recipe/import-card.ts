import type { ImportedTable } from "./imported-table";
import type { Recipe } from "./recipe";

/** The card of an imported data set, written from the recipe and from what happened. */
export function importCard(recipe: Recipe, imported: ImportedTable): string {
  const { tests, rejected, sourceRows, sources, studies } = imported;
  const names = sources.map(({ file }) => `\`${file}\``).join(", ");
  const headers = sources.length === 1 ? "its header" : "their headers";
  const expectation = (sha256: string): string => {
    if (recipe.source.sha256 === sha256) return " (as the recipe expects)";
    if (recipe.source.sha256 === undefined || sources.length > 1) return "";
    return " (**not** the file the recipe was written for)";
  };
  const lines = [
    `# ${recipe.title}`,
    "",
    `**What.** ${tests.length} rows of ${studies.length} studies, imported by the recipe \`${recipe.name}\` from ${names} (${sourceRows} rows below ${headers}).`,
    `The figures belong to the cited papers; see studies.csv. Licence of the source: ${recipe.source.licence}.`,
    ...(recipe.source.address === undefined ? [] : [`Source: ${recipe.source.address}.`]),
    "",
    ...sources.map(
      ({ file, sha256 }) =>
        `**SHA-256 of ${sources.length === 1 ? "the source" : `\`${file}\``}:** \`${sha256}\`${expectation(sha256)}.`,
    ),
    "",
    "**Units.** mm, kN, MPa, GPa.",
    "",
  ];
  const derived = Object.entries(recipe.columns).filter(([, column]) => column.derived === true);
  if (derived.length > 0) {
    lines.push("**Derived, not reported** (never a check of what they were derived from):", "");
    for (const [name, { product, from, times, scale }] of derived) {
      const factors = [...(product ?? [from ?? "", times]), scale];
      lines.push(`- \`${name}\`: ${factors.filter((one) => one !== undefined).join(" x ")}`);
    }
    lines.push("");
  }
  const codes = Object.entries(recipe.columns).flatMap(([name, column]) =>
    Object.entries(column.codes ?? {}).map(
      ([code, meaning]) =>
        `| ${name} | ${code} | ${meaning.value ?? "(left blank)"} | ${meaning.confidence} | ${meaning.note ?? ""} |`,
    ),
  );
  if (codes.length > 0)
    lines.push(
      "| column | code | read as | confidence | note |",
      "|---|---|---|---|---|",
      ...codes,
      "",
    );
  if (imported.assumed.length > 0) {
    lines.push(
      "**Assumed, not reported** (each row names what was assumed in it under `assumptions`; `import --assume none` leaves it unsaid):",
      "",
    );
    for (const { name, column, says, uncertainty, rows } of imported.assumed)
      lines.push(
        `- \`${name}\` (\`${column}\`, ${String(rows)} rows): ${says}. Uncertainty: ${uncertainty}.`,
      );
    lines.push("");
  }
  if ((recipe.doubts ?? []).length > 0)
    lines.push("**Doubts.**", ...(recipe.doubts ?? []).map((doubt) => `- ${doubt}`), "");
  lines.push(`**Rejected rows:** ${rejected.length === 0 ? "none" : String(rejected.length)}.`);
  for (const { row, reason, file } of rejected)
    lines.push(`- ${file === undefined ? "" : `${file} `}row ${String(row)}: ${reason}`);
  return `${lines.join("\n")}\n`;
}
