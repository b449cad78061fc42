import { escapeText } from "../sanitise";

/**
 * A notebook's prose as simple HTML: paragraphs, headings (as strong text, since the page has its
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
  const heading = /^#{1,6}\s+([^\n]+?)\s*#*(?:\n([\s\S]*))?$/.exec(block);
  if (heading) return `<p><strong>${inlineHtml(heading[1] ?? "")}</strong></p>${heading[2] ? blockHtml(heading[2]) : ""}`;
  const lines = block.split("\n");
  if (lines.every((line) => /^\s*[-*]\s/.test(line))) return `<ul>${lines.map((line) => `<li>${inlineHtml(line.replace(/^\s*[-*]\s+/, ""))}</li>`).join("")}</ul>`;
  if (lines.every((line) => line.startsWith(">"))) return `<blockquote>${inlineHtml(lines.map((line) => line.replace(/^>\s?/, "")).join(" "))}</blockquote>`;
  return `<p>${inlineHtml(block)}</p>`;
}

function inlineHtml(text: string): string {
  return escapeText(text)
    .replace(/`([^`]+)`/g, "<code>$1</code>")
    .replace(/\*\*([^*]+)\*\*/g, "<strong>$1</strong>");
}
