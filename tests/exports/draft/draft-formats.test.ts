import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { zipEntries } from "../../../kernel-lib/src/dataset";
import { writeReport } from "../../../kernel-lib/src/exports/document";
import { draftText, proposalReport } from "../../../kernel-lib/src/exports/draft";
import { compare } from "../../../kernel-lib/src/comparison";
import { officeFormulasAbsent, throughOffice } from "../recalculated";
import { compiledDocument, compiledLatex, hasPackage, latexAbsent } from "../compiled-latex";
import { change, draft, present, proposal, tests } from "./drafted-case";

describe("a draft in every format", () => {
  it("marks the change in every format", async () => {
    expect(draft.toMarkdown()).toMatch(/\*\*Removed:\*\*\n\n\$\$N_\{/);
    expect(draft.toMarkdown()).toContain("**New:** <ins>ψ");
    expect(draft.toLatex()).toContain("\\textbf{New:} \\uline{");
    const html = await draft.toHtml();
    expect(html).toMatch(/<b>Removed: <\/b><del class="equation">.*<math/s);
    expect(html).toMatch(/<b>New: <\/b><ins><i>ψ<\/i><sub>FRP,Na<\/sub>[^<]* 0\.6\b/);
    const xml = new TextDecoder().decode(
      zipEntries(await draft.toDocx(), (name) => name === "word/document.xml").get(
        "word/document.xml",
      ),
    );
    expect(xml).toMatch(/<w:b\/>.{0,60}<w:t xml:space="preserve">Removed: /);
    expect(xml).toMatch(/<w:u w:val="single"\/>(?:(?!<\/w:r>).)* 0\.6\b/);
    // The equation of a single anchor and that of a group, each removed and new.
    expect(xml.match(/<m:oMath>/g)).toHaveLength(4);
    const [removed = "", added = ""] = xml.match(/<m:oMath>.*?<\/m:oMath>/gs) ?? [];
    // The removed equation stands whole in a box of which only the line through it is drawn.
    expect(removed).toMatch(
      /^<m:oMath><m:borderBox><m:borderBoxPr>(<m:hide\w+ m:val="1"\/>){4}<m:strikeH m:val="1"\/><\/m:borderBoxPr><m:e>.*<\/m:e><\/m:borderBox><\/m:oMath>$/s,
    );
    // Every piece of text of the new one is underlined.
    expect(added.match(/<m:r><w:rPr>(?:(?!<\/w:rPr>).)*<w:u w:val="single"\/>/g)).toHaveLength(
      added.match(/<m:t>|<m:t /g)?.length ?? -1,
    );
  });
  it.skipIf(officeFormulasAbsent)(
    "shows the strike of a removed equation in LibreOffice, and only there",
    async () => {
      const formulas = [
        ...zipEntries(throughOffice(await draft.toDocx(), "docx", "odt"), (name) =>
          /^Object \d+\/content\.xml$/.test(name),
        ).values(),
      ].map((part) => new TextDecoder().decode(part));
      expect(formulas.map((xml) => /overstrike/.test(xml)).sort()).toEqual([
        false,
        false,
        true,
        true,
      ]);
    },
  );
  it("is text and nothing else where words hold marks of a format", () => {
    const hostile = draftText(
      { ...proposal, rationale: "<b>*x*</b> $y$ 100 % \\sin [z]" },
      { code: present },
    );
    expect(hostile.toMarkdown()).toContain(
      "&lt;b&gt;\\*x\\*&lt;/b&gt; \\$y\\$ 100 % \\\\sin \\[z\\]",
    );
    expect(hostile.toLatex()).toContain("\\$y\\$ 100 \\% \\textbackslash{}sin");
  });
  it.skipIf(latexAbsent)(
    "compiles as LaTeX, with and without the package that draws lines, and as a report",
    async () => {
      const needs = "amsmath,array,booktabs,longtable,pdflscape,rotating";
      expect(draft.toLatex()).toContain(`% needs \\usepackage{${needs}}`);
      expect(compiledLatex(draft.toLatex(), needs).text).toMatch(/Removed:.*New:.*0\.6/s);
      if (hasPackage("ulem"))
        expect(
          compiledLatex(draft.toLatex(), needs, "\\usepackage[normalem]{ulem}").overfull,
        ).toEqual([]);
      const file = join(mkdtempSync(join(tmpdir(), "report-")), "report.tex");
      await writeReport(
        proposalReport({
          proposal,
          tests,
          comparison: compare(tests, present),
          change,
          question: { fractile: 0.05, confidence: 0.9 },
          caution: "No design: 100 % research & tests.",
          invented: true,
        }),
        file,
      );
      const { text, overfull } = compiledDocument(readFileSync(file, "utf8"));
      for (const words of [
        "Proposal frp-bond: FRP bars in bond",
        "100 % research & tests",
        "Before and after",
        "Removed:",
      ])
        expect(text).toContain(words);
      expect(overfull).toEqual([]);
    },
    120_000,
  );
});
