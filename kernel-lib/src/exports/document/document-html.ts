import { symbolLatex, symbolRuns, symbolText, toLatex, toText } from "../../formula";
import { renderSvg } from "../images";
import { captionOf, CHANGE_WORDS, numbering, type Block, type DocumentModel } from "./document";

const STYLE = `:root{color-scheme:light}*{box-sizing:border-box}body{margin:0 auto;max-width:62rem;padding:1.5rem;font:16px/1.5 "DejaVu Sans",Verdana,sans-serif;color:#1a1a1a;background:#fff}
h1{font-size:1.7rem;line-height:1.25;margin:0 0 .25rem}h2{font-size:1.25rem;margin:2.5rem 0 .75rem;border-bottom:1px solid #808080;padding-bottom:.25rem}h3{font-size:1rem}
.caution{border:2px solid #1a1a1a;padding:.75rem 1rem;margin:1rem 0;font-weight:bold}.stamp{font-style:italic;color:#404040}
nav ol{columns:2;padding-left:1.5rem}nav li{break-inside:avoid}a{color:#0b4f8a}a:focus-visible,.scroll:focus-visible{outline:3px solid #0b4f8a}
table{border-collapse:collapse;font-size:.82rem;min-width:50%}caption,figcaption{text-align:left;font-size:.9rem;padding:.25rem 0 .5rem}caption b,figcaption b{font-weight:bold}th,td{padding:.25rem .5rem;border-bottom:1px solid #c8c8c8;vertical-align:top}thead th{border-top:2px solid #404040;border-bottom:1px solid #404040;vertical-align:bottom}tbody th{font-weight:normal}tfoot td{border:0;border-top:1px solid #404040;font-style:italic;text-align:left}tfoot p{margin:.1rem 0}
td[data-column^=verdict]{font-weight:bold;white-space:nowrap}.scroll{overflow-x:auto;margin:1rem 0}figure{margin:1.25rem 0}figure.narrow{display:inline-block;width:48.5%;margin:1rem .5% 0 0;vertical-align:top}@media (max-width:48rem){figure.narrow{display:block;width:auto}}figure svg{max-width:100%;height:auto}
.provision,.changed{margin:.75rem 0}.provision h3{margin:1.5rem 0 .25rem}.provision p{margin:.25rem 0}.marked,.changed{border-left:4px solid #404040;margin-left:-1rem;padding-left:calc(1rem - 4px)}ins{text-underline-offset:.3em}sub{font-size:.72em;line-height:0}ins{text-decoration:underline;font-weight:bold}del{text-decoration:line-through}
ins.equation,del.equation{display:block;text-decoration:none}ins.equation math{border-bottom:1px solid}del.equation math{text-decoration:line-through}
.formula{overflow-x:auto;padding:.25rem 0}math{font-size:1.05rem}
@media print{body{max-width:none;padding:0;font-size:10pt}.scroll{overflow:visible}table{font-size:7.5pt}tr,figure{break-inside:avoid}h2,h3{break-after:avoid}a{color:inherit;text-decoration:none}thead{display:table-header-group}}`;

/**
 * The packet as one HTML file that works offline: headings, contents, native tables, figures as
 * drawings with their text alternative, formulas as MathML. A policy inside forbids scripts and
 * every request.
 */
export async function documentHtml(model: DocumentModel): Promise<string> {
  const { default: temml } = await import("temml");
  const numbers = numbering(model);
  const formula = (latex: string): string =>
    temml.renderToString(latex, { displayMode: true, throwOnError: true });
  const sections: string[] = [];
  for (const { id, title, blocks } of model.sections) {
    const parts: string[] = [];
    for (const block of blocks)
      parts.push(await blockHtml(block, numbers.get(block) ?? 0, formula));
    sections.push(
      `<section aria-labelledby="section-${id}">\n<h2 id="section-${id}">${escapeText(title)}</h2>\n${parts.join("\n")}\n</section>`,
    );
  }
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<title>${escapeText(model.title)}</title>
<style>${STYLE}</style>
</head>
<body>
<header>
<h1>${escapeText(model.title)}</h1>
<p>${escapeText(model.subtitle)}</p>
<p class="stamp">${escapeText(model.stamp)}</p>
<p class="caution">${escapeText(model.caution)}</p>
</header>
${model.coverFirst ? `<main>\n${sections[0] ?? ""}\n` : ""}<nav aria-label="Contents">
<h2 id="packet-contents">Contents</h2>
<ol>
${model.sections.map(({ id, title }) => `<li><a href="#section-${id}">${escapeText(title)}</a></li>`).join("\n")}
</ol>
</nav>
${model.coverFirst ? "" : "<main>\n"}${sections.slice(model.coverFirst ? 1 : 0).join("\n")}
</main>
</body>
</html>
`;
}

async function blockHtml(
  block: Block,
  number: number,
  formula: (latex: string) => string,
): Promise<string> {
  switch (block.kind) {
    case "paragraph":
      return `<p>${running(block.text)}</p>`;
    case "caution":
      return `<p class="caution">${escapeText(block.text)}</p>`;
    case "list":
      return `<ul>\n${block.items.map((item) => `<li>${running(item)}</li>`).join("\n")}\n</ul>`;
    case "provision":
      return provisionHtml(block);
    case "formula": {
      const { symbol, expression, change } = block;
      const label = escapeText(`Formula: ${symbolText(symbol)} = ${toText(expression)}`);
      const math = formula(`${symbolLatex(symbol)} = ${toLatex(expression)}`);
      const equation = `<div class="formula" tabindex="0" role="group" aria-label="${label}">${math}</div>`;
      return change
        ? `<div class="changed">${changeWord(change)}<${TAG[change]} class="equation">${equation}</${TAG[change]}></div>`
        : equation;
    }
    case "table": {
      const caption = `<caption><b>Table ${number}.</b> `;
      // A table wider than the screen is scrolled, also by keyboard.
      return `<div class="scroll" tabindex="0" role="group" aria-label="Table ${number}">${block.table.toHtml().replace("<caption>", caption)}</div>`;
    }
    case "figure": {
      const svg = (await renderSvg(block.figure)).replace(/<\?xml[^>]*\?>/, "");
      const image = `data:image/svg+xml;base64,${Buffer.from(svg, "utf8").toString("base64")}`;
      const { width, height } = block.figure.layout;
      return `<figure id="figure-${number}"${width <= NARROW ? ' class="narrow"' : ""}><img src="${image}" alt="${escapeText(block.figure.alt)}" width="${width}" height="${height}" style="max-width:100%;height:auto"><figcaption><b>Figure ${number}.</b> ${escapeText(captionOf(block.figure))}</figcaption></figure>`;
    }
  }
}

/** Pixels; two figures up to this width stand side by side. */
const NARROW = 340;

const TAG = { inserted: "ins", deleted: "del" } as const;

function changeWord(change: keyof typeof TAG): string {
  return `<b>${CHANGE_WORDS[change]}</b>`;
}

/** Running text with the subscripts of its symbols set as such. */
function running(text: string): string {
  return symbolRuns(text)
    .map(({ text: piece, script }) =>
      script === "line"
        ? escapeText(piece)
        : script === "symbol"
          ? `<i>${escapeText(piece)}</i>`
          : `<sub>${escapeText(piece)}</sub>`,
    )
    .join("");
}

/** Text that is content and nothing else, also inside a double-quoted attribute. */
export function escapeText(text: string): string {
  return text
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]/g, "")
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;");
}

function provisionHtml({ title, pieces }: Extract<Block, { readonly kind: "provision" }>): string {
  const heading = title === "" ? "" : `<h3>${escapeText(title)}</h3>`;
  const text = pieces
    .map(({ text: piece, change }) =>
      change === undefined
        ? running(piece)
        : `${changeWord(change)}<${TAG[change]}>${running(piece)}</${TAG[change]}>`,
    )
    .join("");
  const marked = pieces.some(({ change }) => change) ? " marked" : "";
  return `<div class="provision${marked}">${heading}${pieces.length === 0 ? "" : `<p>${text}</p>`}</div>`;
}
