import { wholeText } from "../format";
import type { CellOutput, MimeBundle, MultilineText } from "../format";
import { escapeText } from "../sanitise";
import type { Sanitiser } from "../sanitise";

/** Characters of one output shown on a page; the notebook holds the rest. */
const MOST_SHOWN = 200_000;

/** A cell's outputs as harmless HTML: each output in its richest form that the allow-list can show. */
export function outputsHtml(outputs: readonly CellOutput[], sanitise: Sanitiser): string {
  if (outputs.length === 0) return `<p class="none">no output</p>`;
  return outputs.map((output) => `<div class="output">${outputHtml(output, sanitise)}</div>`).join("\n");
}

function outputHtml(output: CellOutput, sanitise: Sanitiser): string {
  switch (output.output_type) {
    case "stream":
      return `${output.name === "stderr" ? `<p class="channel">standard error</p>` : ""}${pre(wholeText(output.text))}`;
    case "error":
      return `<p class="channel">error</p>${pre(output.traceback.join("\n") || `${output.ename}: ${output.evalue}`)}`;
    case "display_data":
    case "execute_result":
      return bundleHtml(output.data, sanitise);
  }
}

function bundleHtml(data: MimeBundle, sanitise: Sanitiser): string {
  const svg = data["image/svg+xml"];
  if (svg !== undefined) return shown(textOf(svg), sanitise);
  const png = data["image/png"];
  if (png !== undefined) {
    const bytes = textOf(png).replace(/\s/g, "");
    if (/^[A-Za-z0-9+/]+=*$/.test(bytes)) return `<img alt="${escapeText(textOf(data["text/plain"] ?? "picture"))}" src="data:image/png;base64,${bytes}">`;
  }
  const html = data["text/html"];
  if (html !== undefined) return shown(textOf(html), sanitise);
  return pre(textOf(data["text/markdown"] ?? data["text/plain"] ?? JSON.stringify(data)));
}

function shown(markup: string, sanitise: Sanitiser): string {
  if (markup.length > 10 * MOST_SHOWN) return `<p class="none">too large to show here (${markup.length} characters)</p>`;
  return sanitise(markup);
}

function pre(text: string): string {
  const cut = text.length > MOST_SHOWN ? `${text.slice(0, MOST_SHOWN)}\n… (${text.length - MOST_SHOWN} more characters in the notebook)` : text;
  return `<pre tabindex="0">${escapeText(cut)}</pre>`;
}

function textOf(value: unknown): string {
  return typeof value === "string" || Array.isArray(value) ? wholeText(value as MultilineText) : JSON.stringify(value);
}
