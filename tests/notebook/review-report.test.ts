import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import {
  compareOutputs,
  makeReviewRecord,
  readReviewRecord,
  reportHtml,
  reviewNotebook,
  writeReviewRecord,
} from "../../kernel-lib/src/notebook";
import { proseBundle } from "../../kernel-lib/src/face/results/prose";
import type { NotebookReview } from "../../kernel-lib/src/notebook";
import { fixtureCopy, notebookOf, scratchFolder } from "./notebook-in-scratch";
import { sharedKernel } from "./shared-kernel";

const startKernel = sharedKernel();

let reviews: NotebookReview[];
beforeAll(async () => {
  reviews = [
    await reviewNotebook(fixtureCopy("changed-number"), { startKernel }),
    await reviewNotebook(fixtureCopy("hostile-html"), { startKernel }),
  ];
}, 120_000);

async function elementsOf(html: string): Promise<Element[]> {
  const { JSDOM } = await import("jsdom");
  return [...new JSDOM(html).window.document.querySelectorAll("*")];
}

describe("the report", () => {
  test("says each verdict in words, and holds nothing that acts or loads", async () => {
    const html = await reportHtml(reviews);
    for (const part of [
      "output, table, row B, column ratio",
      "1.93e-2",
      "NOT reproduced",
      "default-src 'none'",
    ])
      expect(html).toContain(part);
    const elements = await elementsOf(html);
    expect(
      elements
        .filter(({ localName }) => /^(script|iframe|img|form|link|object)$/.test(localName))
        .map(({ outerHTML }) => outerHTML),
    ).toEqual([]);
    const attributes = elements
      .flatMap((element) => [...element.attributes])
      .filter(({ name, value }) => /^on|^(src|href|action)$/.test(name) || /url\(/.test(value));
    expect(attributes.map(({ name, value }) => `${name}=${value}`)).toEqual([]);
  });

  test("marks a changed number in words at its place, on both sides", async () => {
    const elements = await elementsOf(await reportHtml(reviews));
    const marked = elements
      .filter(({ localName, className }) => localName === "strong" && className === "differs")
      .map((element) => [
        element.closest(".half")?.className,
        element.parentElement?.getAttribute("data-column"),
        element.textContent,
      ]);
    expect(marked).toEqual([
      ["half recorded", "ratio", "(changed: rerun 0.913)"],
      ["half rerun", "ratio", "(changed: recorded 0.931)"],
    ]);
  });

  test("names the volatile rule that fired, and says what is too large to show", async () => {
    const cell = {
      source: 'console.log("took 12 ms")',
      execution_count: 1,
      outputs: [{ output_type: "stream", name: "stdout", text: "took 99 ms\n" }],
    };
    const review = await reviewNotebook(notebookOf([cell]), { startKernel });
    expect(review.cells[0]).toMatchObject({ verdict: "excused", rules: ["elapsed-time"] });
    const large = [
      {
        output_type: "display_data" as const,
        data: { "text/html": "x".repeat(2_000_001) },
        metadata: {},
      },
      { output_type: "stream" as const, name: "stdout", text: "y".repeat(200_001) },
    ];
    const html = await reportHtml([
      {
        ...review,
        cells: [
          review.cells[0]!,
          { ...review.cells[0]!, differences: [], recorded: large, rerun: large },
        ],
      },
    ]);
    for (const part of [
      "masked phrase (elapsed-time): &quot;took 99 ms&quot; is now &quot;took 12 ms&quot;",
      "volatile: elapsed-time",
      '<mark>took 99 ms</mark> <strong class="differs">(volatile)</strong>',
      "too large to show here (2000001 characters)",
      "… (1 more characters in the notebook)",
    ])
      expect(html).toContain(part);
    expect(html.length).toBeLessThan(500_000);
  });

  test("markdown is shown as prose, its markup harmless; where lines differ it is shown as written, with the line marked", async () => {
    const output = (text: string) => [
      { output_type: "display_data" as const, data: { "text/markdown": text }, metadata: {} },
    ];
    const prose = output(
      "### Falls *short*\n- **bond**: 0.9 <script>1</script>\n- `x < 1`\n\n> careful\n\nend",
    );
    const cell = { ...reviews[0]!.cells[0]!, recorded: prose, rerun: prose };
    expect(await reportHtml([{ ...reviews[0]!, cells: [cell] }])).toContain(
      "<p><strong>Falls <em>short</em></strong></p><ul><li><strong>bond</strong>: 0.9 &lt;script&gt;1&lt;/script&gt;</li><li><code>x &lt; 1</code></li></ul>\n<blockquote>careful</blockquote>\n<p>end</p>",
    );
    const long = output("# a\n".repeat(49_000));
    expect(
      await reportHtml([{ ...reviews[0]!, cells: [{ ...cell, recorded: long, rerun: long }] }]),
    ).toContain("<p><strong>a</strong></p></div>");
    const [recorded, rerun] = [
      output("- **bond**: 0.9\n- pryout"),
      output("- **bond**: 0.8\n- pryout"),
    ];
    const { differences } = compareOutputs(recorded, rerun, 1e-9);
    expect(
      await reportHtml([{ ...reviews[0]!, cells: [{ ...cell, recorded, rerun, differences }] }]),
    ).toContain(
      '<mark>- **bond**: 0.8</mark> <strong class="differs">(changed)</strong>\n- pryout</pre>',
    );
  });

  test("prose that also stands as HTML for other pages: formulas set, a changed line marked", async () => {
    const output = (text: string) => [
      { output_type: "display_data" as const, data: proseBundle(text), metadata: {} },
    ];
    const cell = reviews[0]!.cells[0]!;
    const report = async (recorded: string, rerun: string): Promise<string> => {
      const [a, b] = [output(recorded), output(rerun)];
      const { differences } = compareOutputs(a, b, 1e-9);
      return reportHtml([
        { ...reviews[0]!, cells: [{ ...cell, recorded: a, rerun: b, differences }] },
      ]);
    };
    expect(await report("**a**\n\n1. one\n2. two", "**a**\n\n1. one\n2. two")).toContain(
      "<p><strong>a</strong></p>\n<ol><li>one</li><li>two</li></ol>",
    );
    expect(await report("of $r_k$", "of $r_k$")).toContain("<msub>");
    expect(await report("**r** 0.9", "**r** 0.8")).toContain(
      '<mark>**r** 0.8</mark> <strong class="differs">(changed)</strong>',
    );
  });

  test("a figure that carries its picture in an image is shown as the picture, rebuilt and laid over", async () => {
    const svg =
      '<svg role="img" aria-labelledby="t"><title id="t">x</title><script>alert(1)</script><circle r="3"></circle></svg>';
    const html = `<img src="data:image/svg+xml;base64,${Buffer.from(svg).toString("base64")}" alt="a &lt; b" width="60">`;
    const data = { "text/html": html, "application/vnd.plotly.v1+json": { data: [], layout: {} } };
    const output = [{ output_type: "display_data" as const, data, metadata: {} }];
    // Equal outputs are shown once, so the rerun has another circle.
    const redrawn = Buffer.from(svg.replace('r="3"', 'r="4"')).toString("base64");
    const rerun = [
      {
        ...output[0]!,
        data: { ...data, "text/html": html.replace(/base64,[^"]*/, `base64,${redrawn}`) },
      },
    ];
    const cell = { ...reviews[0]!.cells[0]!, recorded: output, rerun };
    const report = await reportHtml([{ ...reviews[0]!, cells: [cell] }]);
    for (const radius of [3, 4])
      expect(report.match(new RegExp(`<circle r="${radius}">`, "g"))).toHaveLength(1);
    expect(report).toContain("rerun laid over recorded");
    expect(report).not.toMatch(/<img|alert\(/);
    // An image beside something else, or of another kind, is left out as before.
    for (const other of [html + "<p>words</p>", html.replace("svg+xml", "gif")]) {
      const changed = [{ ...output[0]!, data: { "text/html": other } }];
      const shown = await reportHtml([
        { ...reviews[0]!, cells: [{ ...cell, recorded: changed, rerun: changed }] },
      ]);
      expect(shown).not.toMatch(/<circle|<img/);
    }
  });

  test("formulas in prose are shown as MathML; what is none, cannot be read or would act is not", async () => {
    const show = async (text: string): Promise<string> => {
      const output = [
        { output_type: "display_data" as const, data: { "text/markdown": text }, metadata: {} },
      ];
      const html = await reportHtml([
        { ...reviews[0]!, cells: [{ ...reviews[0]!.cells[0]!, recorded: output, rerun: output }] },
      ]);
      return /<div class="written">(.*?)<\/div>/s.exec(html)?.[1] ?? "";
    };
    const root = await show("**holds $\\sqrt{f_c}$** and `$x$`");
    expect(root).toMatch(
      /^<p><strong>holds <math[^>]*><msqrt><msub><mi>f<\/mi><mi>c<\/mi><\/msub><\/msqrt><\/math><\/strong> and <code>\$x\$<\/code><\/p>$/,
    );
    expect(await show("$$r_k = \\bar r - K(n)\\,s ,$$")).toMatch(/<math[^>]*display="block"/);
    expect(await show("*so*, but 2 * 3 * 4, a*b*c and 5* or 6*")).toBe(
      "<p><em>so</em>, but 2 * 3 * 4, a*b*c and 5* or 6*</p>",
    );
    expect(await show("costs $5 and $6, or $ x $")).toBe("<p>costs $5 and $6, or $ x $</p>");
    expect(await show("$\\notacommand{x}$ and $a_$")).not.toContain("<math");
    const hostile = await show(
      "$\\href{javascript:alert(1)}{x}$ $\\text{<img src=x onerror=alert(1)>}$ $\\includegraphics{http://a.example/b.png}$",
    );
    const elements = await elementsOf(hostile);
    expect(elements.filter(({ localName }) => /^(a|img|script)$/.test(localName))).toEqual([]);
    expect(
      elements
        .flatMap((element) => [...element.attributes])
        .filter(({ name, value }) => /^on|href|src/.test(name) || /javascript:/.test(value)),
    ).toEqual([]);
  });

  test("no two elements share an id, though recorded and rerun pictures do", async () => {
    const picture =
      '<svg aria-labelledby="t"><title id="t">x</title><defs><clipPath id="c"><rect></rect></clipPath></defs><g clip-path="url(#c)"></g></svg>';
    const output = [
      { output_type: "display_data" as const, data: { "image/svg+xml": picture }, metadata: {} },
    ];
    // Another mark in the rerun: what is the same to the byte is shown once.
    const rerun = [{ ...output[0]!, data: { "image/svg+xml": picture.replace(">x<", ">y<") } }];
    const cell = { ...reviews[0]!.cells[0]!, recorded: output, rerun };
    const once = await reportHtml([{ ...reviews[0]!, cells: [{ ...cell, rerun: output }] }]);
    expect(once).toContain("Recorded and rerun, the same");
    expect(once.match(/<clipPath/g)).toHaveLength(1);
    const elements = await elementsOf(
      await reportHtml([{ ...reviews[0]!, cells: [cell, { ...cell, number: 2 }] }]),
    );
    const ids = elements.flatMap(({ id }) => (id === "" ? [] : [id]));
    expect(ids).toHaveLength(8);
    expect(new Set(ids).size).toBe(8);
    for (const group of elements.filter(({ localName }) => localName === "g"))
      expect(ids).toContain(/url\(#(.*)\)/.exec(group.getAttribute("clip-path") ?? "")?.[1]);
  });
});

describe("the record", () => {
  test("keeps to its schema, and a changed one is refused", async () => {
    const file = join(scratchFolder(), "record.json");
    const record = await makeReviewRecord(reviews, " A. Reviewer ", []);
    await writeReviewRecord(file, record);
    expect(await readReviewRecord(file)).toEqual(record);
    expect(record).toMatchObject({ reviewer: "A. Reviewer", reproduced: false });
    await writeReviewRecord(file, { ...record, reviewer: "" });
    await expect(readReviewRecord(file)).rejects.toThrow("is no review record");
    await expect(makeReviewRecord(reviews, "  ", [])).rejects.toThrow("needs the reviewer's name");
  });
});
