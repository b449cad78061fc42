import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const pdflatex = ["/usr/bin/pdflatex", "/usr/local/bin/pdflatex"].find((file) => existsSync(file));
/** True where LaTeX is not installed (Debian: texlive-latex-recommended). */
export const latexAbsent: boolean = pdflatex === undefined;
if (latexAbsent)
  console.log(
    "skipped: tables, drafts and hand calculations compiled by LaTeX, because pdflatex is not installed",
  );

/**
 * What came of a document: its text where pdftotext can say it, and the lines that run out of the
 * page.
 */
export interface CompiledLatex {
  readonly text: string;
  readonly pages: number;
  /** Messages of lines more than 5 pt too wide: less is within the gap between two columns. */
  readonly overfull: readonly string[];
}

/** True where the installation has a package that not every one has. */
export function hasPackage(name: string): boolean {
  return spawnSync("kpsewhich", [`${name}.sty`]).status === 0;
}

/**
 * Compiles a part of a document within the narrowest page of the standard classes, with the
 * packages that it says it needs.
 */
export function compiledLatex(part: string, packages: string, more = ""): CompiledLatex {
  return compiledDocument(
    `\\documentclass[a4paper]{article}\n\\usepackage{${packages}}\n${more}\n\\begin{document}\n${part}\n\\end{document}\n`,
  );
}

/** Compiles a document. @throws Error with the first messages of LaTeX */
export function compiledDocument(source: string): CompiledLatex {
  const folder = mkdtempSync(join(tmpdir(), "latex-"));
  writeFileSync(join(folder, "a.tex"), source);
  const { status } = spawnSync(
    pdflatex ?? "pdflatex",
    ["-interaction=nonstopmode", "-halt-on-error", "a.tex"],
    { cwd: folder },
  );
  const log = readFileSync(join(folder, "a.log"), "latin1");
  if (status !== 0)
    throw new Error(
      `LaTeX: ${log
        .split("\n")
        .filter((line, k, all) => line.startsWith("!") || all[k - 1]?.startsWith("!"))
        .slice(0, 6)
        .join(" | ")}`,
    );
  return {
    text: existsSync("/usr/bin/pdftotext")
      ? execFileSync("/usr/bin/pdftotext", ["-layout", "a.pdf", "-"], {
          cwd: folder,
          encoding: "utf8",
        })
      : "",
    pages: Number(/\((\d+) pages?/.exec(log)?.[1] ?? NaN),
    overfull: (log.match(/Overfull \\hbox \([\d.]+pt.*/g) ?? []).filter(
      (line) => Number(/([\d.]+)pt/.exec(line)?.[1]) > 5,
    ),
  };
}
