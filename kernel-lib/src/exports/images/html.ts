import { inventedStamp } from "../../figures";
import type { Figure } from "../../figures/figure";
import { plotlyLicense, plotlySource } from "./plotly";
import { renderSvg } from "./svg";
import { escapeXml } from "./tidy-svg";

const style = `body{margin:1.5rem auto;max-width:60rem;padding:0 1rem;font:16px/1.45 "DejaVu Sans",Verdana,sans-serif;color:#1a1a1a;background:#fff}
figure{margin:0}figcaption{margin-top:.75rem;color:#404040}.stamp{font-style:italic}`;

/**
 * A figure as one HTML file that works offline: plotly.js inside, no request to anywhere (the
 * content security policy forbids it), the static picture where scripts are switched off.
 */
export async function figureHtml(figure: Figure): Promise<string> {
  const [source, license, svg] = await Promise.all([
    plotlySource(),
    plotlyLicense(),
    renderSvg(figure),
  ]);
  const policy =
    "default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; img-src data: blob:";
  const content = scriptJson({ data: figure.data, layout: figure.layout });
  const options = scriptJson({
    displaylogo: false,
    toImageButtonOptions: { format: "svg", filename: figure.id },
  });
  const says = inventedStamp(figure.invented);
  const stamp = says === null ? "" : `<span class="stamp">${says}.</span> `;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<title>${escapeXml(figure.title)}</title>
<style>${style}</style>
</head>
<body>
<main>
<h1 style="font-size:1.15rem">${escapeXml(figure.title)}</h1>
<figure>
<div id="figure" role="group" aria-label="${escapeXml(figure.alt)}"></div>
<noscript>${svg}</noscript>
<figcaption>${stamp}${escapeXml(figure.caption)}</figcaption>
</figure>
</main>
<!-- The next script is plotly.js. Its license:
${license.replace(/--/g, "- -")}-->
<script>${source.replace(/<\/script/gi, "<\\/script").replace(/<!--/g, "<\\!--")}</script>
<script>
const content = ${content};
Plotly.newPlot("figure", content.data, content.layout, ${options});
</script>
</body>
</html>
`;
}

/** JSON that cannot end the script element it stands in. */
function scriptJson(value: unknown): string {
  return JSON.stringify(value)
    .replace(/</g, "\\u003c")
    .replace(/\u2028/g, "\\u2028")
    .replace(/\u2029/g, "\\u2029");
}
