import { escapeText } from "../sanitise";

/**
 * Markdown as simple HTML: paragraphs, headings (as strong text, since the page has its
 * own), lists, quotes, strong and code. All other markup, formulas too, is shown as it is written.
 */
export function proseHtml(markdown: string): string {
  return markdown
    .split(/\n\s*\n/)
    .map((block) => block.trim())
    .filter((block) => block !== "")
    .map(blockHtml)
    .join("\n");
}

function blockHtml(block: string): string {
  const lines = block.split("\n");
  // A heading may stand right above its paragraph.
  const from = lines.findIndex((line) => !HEADING.test(line));
  const headings = lines.slice(0, from < 0 ? lines.length : from).map((line) => `<p><strong>${inlineHtml(line.replace(HEADING, ""))}</strong></p>`);
  return headings.join("") + (from < 0 ? "" : plainBlockHtml(lines.slice(from)));
}

const HEADING = /^#{1,6}\s+/;

function plainBlockHtml(lines: readonly string[]): string {
  if (lines.every((line) => /^\s*[-*]\s/.test(line))) return `<ul>${lines.map((line) => `<li>${inlineHtml(line.replace(/^\s*[-*]\s+/, ""))}</li>`).join("")}</ul>`;
  if (lines.every((line) => line.startsWith(">"))) return `<blockquote>${inlineHtml(lines.map((line) => line.replace(/^>\s?/, "")).join(" "))}</blockquote>`;
  return `<p>${inlineHtml(lines.join("\n"))}</p>`;
}

function inlineHtml(text: string): string {
  return escapeText(text)
    .replace(/`([^`]+)`/g, "<code>$1</code>")
    .replace(/\*\*([^*]+)\*\*/g, "<strong>$1</strong>");
}
