import { proseHtml } from "../../notebook/report/prose-html";

/**
 * Markdown in the forms of a notebook. A page that is not trusted shows no Markdown of an output,
 * so the same words stand beside it as HTML; a formula between dollar signs stays for the page to
 * set.
 */
export function proseBundle(
  markdown: string,
  plain: string = markdown,
): { "text/html": string; "text/markdown": string; "text/plain": string } {
  return {
    "text/html": proseHtml(markdown, { formula: () => undefined }),
    "text/markdown": markdown,
    "text/plain": plain,
  };
}
