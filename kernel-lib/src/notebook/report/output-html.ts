import { TABLE_TYPE } from "../compare";
import { LIMITS, wholeText } from "../format";
import type { CellOutput, MimeBundle, MultilineText } from "../format";
import { escapeText } from "../sanitise";
import type { Sanitiser } from "../sanitise";
import type { OutputNotes } from "./difference-notes";
import { proseHtml } from "./prose-html";

/** Characters of one output shown on a page; the notebook holds the rest. */
const MOST_SHOWN = 200_000;
/** Markup of a table or a figure is shown whole or not at all. */
const MOST_MARKUP = 10 * MOST_SHOWN;

/** How one output is to be shown. */
export interface OutputSetting {
  readonly sanitise: Sanitiser;
  /** Put before the ids inside a picture. */
  readonly idPrefix: string;
  readonly notes?: OutputNotes;
}

/** An output as harmless HTML, in its richest form that the allow-list can show. */
export function outputHtml(output: CellOutput, setting: OutputSetting): string {
  switch (output.output_type) {
    case "stream":
      return `${output.name === "stderr" ? `<p class="channel">standard error</p>` : ""}${pre(wholeText(output.text), setting)}`;
    case "error":
      return `<p class="channel">error</p>${pre(output.traceback.join("\n") || `${output.ename}: ${output.evalue}`)}`;
    case "display_data":
    case "execute_result":
      return bundleHtml(output.data, setting);
  }
}

/** Whether an output is shown as a picture, which may be laid over another. */
export function isPicture(output: CellOutput): boolean {
  return "data" in output && (svgOf(output.data) !== undefined || "image/png" in output.data);
}

/** An image element and nothing else, which holds an SVG as its data. */
const IMAGE_OF_SVG =
  /^\s*<img src="data:image\/svg\+xml;base64,([A-Za-z0-9+/]+={0,2})"(?: (?:alt|width|height)="[^"<>]*")*>\s*$/;

/**
 * The SVG of an output: a form of its own, or the data of the image that a figure carries for
 * pages that are not trusted. It is shown rebuilt from the allow-list, like all markup.
 */
function svgOf(data: MimeBundle): string | undefined {
  const own = data["image/svg+xml"];
  if (own !== undefined) return textOf(own);
  const html = data["text/html"];
  const held = html === undefined ? undefined : IMAGE_OF_SVG.exec(textOf(html))?.[1];
  return held === undefined ? undefined : Buffer.from(held, "base64").toString("utf8");
}

function bundleHtml(data: MimeBundle, setting: OutputSetting): string {
  const svg = svgOf(data);
  if (svg !== undefined) return shown(svg, setting);
  const png = data["image/png"];
  if (png !== undefined) {
    const bytes = textOf(png).replace(/\s/g, "");
    if (bytes.length > LIMITS.outputCharacters) return tooLarge(bytes.length);
    if (/^[A-Za-z0-9+/]+=*$/.test(bytes))
      return `<img alt="${escapeText(textOf(data["text/plain"] ?? "picture"))}" src="data:image/png;base64,${bytes}">`;
  }
  const html = data["text/html"];
  if (html !== undefined && !isBetterWritten(data, textOf(html), setting))
    return shown(textOf(html), setting);
  const form = ["text/markdown", "text/plain"].find((type) => type in data);
  if (form === undefined) return pre(JSON.stringify(data));
  const text = textOf(data[form]);
  // Where lines differ they are shown as they are written, so that each can be marked.
  if (form === "text/markdown" && setting.notes?.linesDiffer !== true && text.length <= MOST_SHOWN)
    return `<div class="written">${proseHtml(text, setting.sanitise)}</div>`;
  return pre(text, setting, form);
}

/**
 * Prose whose lines differ is shown as it is written, to be marked; and where its HTML leaves
 * formulas to the page, they are set from the Markdown.
 */
function isBetterWritten(data: MimeBundle, html: string, { notes }: OutputSetting): boolean {
  return (
    "text/markdown" in data &&
    !(TABLE_TYPE in data) &&
    (notes?.linesDiffer === true || html.includes("$"))
  );
}

function shown(markup: string, { sanitise, idPrefix, notes }: OutputSetting): string {
  if (markup.length > MOST_MARKUP) return tooLarge(markup.length);
  const scrolls = markup.trimStart().startsWith("<svg")
    ? ""
    : ` tabindex="0" role="group" aria-label="output"`;
  return `<div class="markup"${scrolls}>${sanitise(markup, { idPrefix, ...(notes ? { noteOf: notes.ofElement } : {}) })}</div>`;
}

function tooLarge(characters: number): string {
  return `<p class="none">too large to show here (${characters} characters); the notebook holds it</p>`;
}

function pre(text: string, setting?: OutputSetting, form?: string): string {
  const cut =
    text.length > MOST_SHOWN
      ? `${text.slice(0, MOST_SHOWN)}\n… (${text.length - MOST_SHOWN} more characters in the notebook)`
      : text;
  const lines = cut.split("\n").map((line, index) => {
    const note = setting?.notes?.ofLine(index + 1, form);
    return note === undefined
      ? escapeText(line)
      : `<mark>${escapeText(line)}</mark> <strong class="differs">(${note})</strong>`;
  });
  return `<pre tabindex="0">${lines.join("\n")}</pre>`;
}

function textOf(value: unknown): string {
  return typeof value === "string" || Array.isArray(value)
    ? wholeText(value as MultilineText)
    : JSON.stringify(value);
}
