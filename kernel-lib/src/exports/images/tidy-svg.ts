import type { Figure } from "../../figures/figure";
import { fontFamily } from "./fonts";

const defaults =
  /\s*(?:stroke-opacity: 1|fill-opacity: 1|opacity: 1|white-space: pre|font-family:[^;"]*);/g;
const unneeded =
  / (?:class|data-[a-z-]+|pointer-events|shape-rendering|style)="(?=")"| (?:class|data-[a-z-]+|pointer-events)="[^"]*"/g;

/**
 * Plotly's SVG without what a picture does not need: empty groups, class names, repeated defaults
 * and far decimals. Ids become "<figure id>-1", "-2", …, so that figures can stand together in one
 * page; title and description are added for readers who cannot see the picture.
 */
export function tidySvg(svg: string, figure: Figure): string {
  const tags = svg.replace(/<[^>]+>/g, tidyTag);
  return withDescription(stableIds(withoutEmptyGroups(tags), figure.id), figure);
}

function tidyTag(tag: string): string {
  return tag
    .replace(defaults, "")
    .replace(/ style="\s*"/g, "")
    .replace(unneeded, "")
    .replace(/ transform=""/g, "")
    .replace(
      /rgb\((\d+), (\d+), (\d+)\)/g,
      (_, r: string, g: string, b: string) =>
        `#${[r, g, b].map((c) => Number(c).toString(16).padStart(2, "0")).join("")}`,
    )
    .replace(/-?\d+\.\d{3,}(?:e-?\d+)?/g, (number) => String(Number(Number(number).toFixed(2))));
}

function withoutEmptyGroups(svg: string): string {
  let before = "";
  let after = svg;
  while (after !== before) {
    before = after;
    after = before
      // The attributes end before the slash: else an empty group takes the end of the one around it.
      .replace(/<(g|defs)(?: [^<>]*?)?(?:\/>|><\/\1>)/g, "")
      .replace(/<path(?: (?!d=)[a-z-]+="[^"]*")*\/>/g, "");
  }
  return after;
}

function stableIds(svg: string, prefix: string): string {
  const names = new Map<string, string>();
  for (const [, id = ""] of svg.matchAll(/ id="([^"]+)"/g))
    names.set(id, `${prefix}-${names.size + 1}`);
  return svg
    .replace(/ id="([^"]+)"/g, (_, id: string) => ` id="${names.get(id) ?? id}"`)
    .replace(
      /url\((?:'|&quot;)?#([^)'&]+)(?:'|&quot;)?\)/g,
      (_, id: string) => `url(#${names.get(id) ?? id})`,
    );
}

function withDescription(svg: string, figure: Figure): string {
  const titleId = `${figure.id}-title`;
  const descriptionId = `${figure.id}-description`;
  const opening = `<svg role="img" aria-labelledby="${titleId} ${descriptionId}" font-family="${fontFamily}"`;
  const texts = `<title id="${titleId}">${escapeXml(figure.title)}</title><desc id="${descriptionId}">${escapeXml(figure.alt)}</desc>`;
  return svg.replace("<svg", opening).replace(/>/, () => `>${texts}`);
}

/** Makes a text harmless as XML content; characters that XML 1.0 forbids are dropped. */
export function escapeXml(text: string): string {
  const allowed = text.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, "");
  return allowed
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;");
}
