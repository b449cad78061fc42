import { latexPlain, latexText } from "../formula";
import { oneLine } from "./cell-text";
import { alignOf, headingOf } from "./column";
import { pageText } from "./column-widths";
import { latexLayout, SIDEWAYS } from "./latex-layout";
import { notesOf } from "./notes";
import type { TableContent } from "./table-content";

const LETTER = { left: "l", right: "r", center: "c" } as const;
const RAGGED = { left: "\\raggedright", right: "\\raggedleft", center: "\\centering" } as const;

/**
 * A LaTeX table with the rules of the `booktabs` package, which names in its first line the
 * packages it needs. One that is wider than the text gets columns that break their lines, then
 * smaller type, then a page on its side; one longer than a page goes on with its heading on the
 * next. It compiles with any engine that reads UTF-8.
 */
export function toLatex(table: TableContent): string {
  const { size, total, widths, long } = latexLayout(table);
  const columns = table.columns
    .map((column, c) =>
      widths
        ? `>{${RAGGED[alignOf(column)]}\\arraybackslash}p{\\dimexpr ${((widths[c] ?? 0) / total).toFixed(4)}\\linewidth-2\\tabcolsep\\relax}`
        : LETTER[alignOf(column)],
    )
    .join("");
  const line = (cells: readonly string[]): string => `  ${cells.join(" & ")} \\\\`;
  const head = [
    "  \\toprule",
    line(table.columns.map((column) => latexText(oneLine(headingOf(column))))),
    "  \\midrule",
  ];
  const rows = table.rows.map((row) =>
    line(table.columns.map((column) => latexPlain(pageText(column, row[column.key])))),
  );
  const caption = `\\caption{${latexText(oneLine(table.caption ?? table.title))}}`;
  const label = `\\label{tab:${table.id}}`;
  const set = [size.command, `\\setlength{\\tabcolsep}{${size.space / 2}pt}`];
  const notes = notesOf(table).map((note) => `${latexText(oneLine(note))}\\par`);
  const under =
    notes.length === 0
      ? []
      : [
          "\\par\\smallskip\\noindent\\begin{minipage}{\\linewidth}\\footnotesize\\raggedright",
          ...notes,
          "\\end{minipage}",
        ];
  const needs = (...packages: string[]): string => `% needs \\usepackage{${packages.join(",")}}`;
  const sideways = total === SIDEWAYS;
  if (long) {
    const heading = [
      `${caption}${label}\\\\`,
      ...head,
      "  \\endfirsthead",
      ...head,
      "  \\endhead",
      "  \\bottomrule",
      "  \\endfoot",
    ];
    const [open, close] = sideways
      ? ["\\begin{landscape}", "\\end{landscape}"]
      : ["\\begingroup", "\\endgroup"];
    return [
      needs("array", "booktabs", "longtable", ...(sideways ? ["pdflscape"] : [])),
      open,
      ...set,
      "\\setlength{\\LTcapwidth}{\\linewidth}",
      `\\begin{longtable}{${columns}}`,
      ...heading,
      ...rows,
      "\\end{longtable}",
      ...under,
      close,
      "",
    ].join("\n");
  }
  const environment = sideways ? "sidewaystable" : "table";
  return [
    needs(...(widths ? ["array"] : []), "booktabs", ...(sideways ? ["rotating"] : [])),
    `\\begin{${environment}}${sideways ? "" : "[htbp]"}`,
    "\\centering",
    caption,
    label,
    ...set,
    `\\begin{tabular}{${columns}}`,
    ...head,
    ...rows,
    "  \\bottomrule",
    "\\end{tabular}",
    ...under,
    `\\end{${environment}}`,
    "",
  ].join("\n");
}
