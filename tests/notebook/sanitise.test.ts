import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import {
  codeCells,
  createSanitiser,
  parseNotebook,
  wholeText,
} from "../../kernel-lib/src/notebook";
import { FIXTURES } from "./notebook-in-scratch";

describe("sanitising by allow-list", async () => {
  const sanitise = await createSanitiser();

  test.each([
    ["a script", "a<script>alert(1)</script>b", "ab"],
    ["an event handler", '<p onclick="alert(1)">x</p>', "<p>x</p>"],
    ["a script address", '<a href="javascript:alert(1)">x</a>', "<a>x</a>"],
    ["a picture from elsewhere", '<img src="https://example.invalid/x">', ""],
    [
      "a style that loads",
      '<td style="text-align: right; background: url(https://example.invalid/x)">1</td>',
      '<td style="text-align: right">1</td>',
    ],
    [
      "an escaped style that loads",
      '<b style="color: u\\72l(https://example.invalid/x)">1</b>',
      "<b>1</b>",
    ],
    [
      "a reference out of a picture",
      '<svg><use href="https://example.invalid/#a"/></svg>',
      "<svg><use></use></svg>",
    ],
    [
      "a picture from elsewhere inside a picture",
      '<svg><image href="https://example.invalid/x.png"/><image xlink:href="data:image/svg+xml;base64,PHN2Zy8+"/></svg>',
      "<svg><image></image><image></image></svg>",
    ],
    ["a style sheet", "<style>@import url(https://example.invalid/x)</style>", ""],
    [
      "HTML inside a picture",
      "<svg><foreignObject><p onclick='x()'>no</p></foreignObject></svg>",
      "<svg></svg>",
    ],
    [
      "HTML inside a formula",
      "<math><mtext><table><tr><td>x</td></tr></table><b>y</b></mtext><annotation-xml encoding='text/html'><p onclick='x()'>z</p></annotation-xml><mi href='javascript:x()'>a</mi></math>",
      undefined,
    ],
    [
      "a formula that hides markup",
      "<math><mtext><table><mglyph><style><!--</style><img title='--&gt;&lt;img src=1 onerror=alert(1)&gt;'>",
      undefined,
    ],
    [
      "an attribute with a strange name",
      "<p data-x\"y='1' data-z='2'>t</p>",
      '<p data-z="2">t</p>',
    ],
    ["an unknown element", "<marquee>text</marquee>", "text"],
    [
      "markup broken on purpose",
      '<svg><style><!--</style><img src=x onerror="alert(1)">--></style></svg>',
      undefined,
    ],
  ])("%s does not get through", (_name, given, expected) => {
    const out = sanitise(given);
    if (expected !== undefined) expect(out).toBe(expected);
    expect(sanitise(out)).toBe(out);
    expect(out).not.toMatch(/script|onerror|onclick|onload|https:|url\(|<style|<iframe|<img/i);
  });

  test("tables and pictures of ours stay whole", () => {
    const table =
      '<table><caption>Ratios</caption><tbody><tr data-row-key="A"><th scope="row" data-column="s" style="text-align: left"><bdi>A</bdi></th><td data-column="r" data-value="1.3">1.300</td></tr></tbody></table>';
    expect(sanitise(table)).toBe(table);
    const svg =
      '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><defs><clipPath id="c"><rect width="5" height="5"></rect></clipPath></defs><g clip-path="url(#c)" style="fill: rgb(1, 2, 3); stroke-width: 2px"><path d="M0,0L1,1"></path></g></svg>';
    expect(sanitise(svg)).toBe(svg);
  });

  test("a formula stays, without the text it was written from", () => {
    const formula =
      '<math display="block"><semantics><mrow><msub><mi>N</mi><mrow><mi>c</mi><mi>b</mi></mrow></msub><mo stretchy="false">=</mo><mfrac><mn>1</mn><msqrt><mn>2</mn></msqrt></mfrac></mrow>';
    expect(
      sanitise(
        `${formula}<annotation encoding="application/x-tex">N_{cb}</annotation></semantics></math>`,
      ),
    ).toBe(`${formula}</semantics></math>`);
    // The second reading finds what the first wrote.
    const hostile =
      "<math><mtext><table><mglyph><style><!--</style><img title='--&gt;&lt;img src=1 onerror=alert(1)&gt;'>";
    expect(sanitise(sanitise(hostile))).toBe(sanitise(hostile));
  });

  test("the pixels of a heat map stay", () => {
    const svg =
      '<svg><image preserveAspectRatio="none" width="3" height="2" xlink:href="data:image/png;base64,iVBORw0KGgo="></image></svg>';
    expect(sanitise(svg)).toBe(svg);
  });

  test("every element and attribute of the notebooks' own figures stays", () => {
    const folder = join(FIXTURES, "..", "..", "..", "notebooks");
    const pictures = readdirSync(folder)
      .filter((name) => name.endsWith(".ipynb"))
      .flatMap((name) =>
        codeCells(parseNotebook(readFileSync(join(folder, name), "utf8"), name)).flatMap(
          ({ cell }) =>
            cell.outputs.flatMap((output) => {
              if (!("data" in output)) return [];
              const html = wholeText((output.data["text/html"] ?? "") as string);
              const held = /data:image\/svg\+xml;base64,([^"]+)/.exec(html)?.[1];
              return held === undefined ? [] : [Buffer.from(held, "base64").toString("utf8")];
            }),
        ),
      );
    expect(pictures.length).toBeGreaterThan(5);
    const count = (text: string, pattern: RegExp): number => text.match(pattern)?.length ?? 0;
    for (const picture of pictures) {
      const shown = sanitise(picture);
      // xmlns goes unseen: a picture inside a page needs none.
      for (const pattern of [
        /<[a-zA-Z]+/g,
        / (?!xmlns)[a-zA-Z][\w:-]*="/g,
        /(?:fill|stroke|opacity)[a-z-]*:/g,
      ])
        expect(count(shown, pattern), String(pattern)).toBe(count(picture, pattern));
    }
  });

  test("sanitising twice changes nothing more", () => {
    const notebook = parseNotebook(
      readFileSync(join(FIXTURES, "page-hostile-html.ipynb"), "utf8"),
      "fixture",
    );
    const output = codeCells(notebook)[1]?.cell.outputs[0];
    const html = output && "data" in output ? wholeText(output.data["text/html"] as string[]) : "";
    expect(html).toContain("<script>");
    const once = sanitise(html);
    expect(sanitise(once)).toBe(once);
    expect(once).toContain("shown");
  });
});
