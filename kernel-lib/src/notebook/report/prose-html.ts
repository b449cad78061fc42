import { escapeText } from "../sanitise";
import type { Sanitiser } from "../sanitise";

/**
 * Markdown as simple HTML: paragraphs, headings (as strong text, since the page has its own),
 * lists, tables, quotes, strong, emphasis, code, and formulas between dollar signs as `formula`
 * writes them. All other markup, and a formula that cannot be read, is shown as it is written.
 */
export function proseHtml(markdown: string, sanitise: Pick<Sanitiser, "formula">): string {
  const inline = (text: string): string => inlineHtml(text, sanitise);
  return markdown
    .split(/\n\s*\n/)
    .map((block) => block.trim())
    .filter((block) => block !== "")
    .map((block) => blockHtml(block, inline))
    .join("\n");
}

type Inline = (text: string) => string;

function blockHtml(block: string, inline: Inline): string {
  const lines = block.split("\n");
  // A heading may stand right above its paragraph.
  const from = lines.findIndex((line) => !HEADING.test(line));
  const headings = lines
    .slice(0, from < 0 ? lines.length : from)
    .map((line) => `<p><strong>${inline(line.replace(HEADING, ""))}</strong></p>`);
  return headings.join("") + (from < 0 ? "" : plainBlockHtml(lines.slice(from), inline));
}

const HEADING = /^#{1,6}\s+/;

function plainBlockHtml(lines: readonly string[], inline: Inline): string {
  if (lines.every((line) => /^\s*[-*]\s/.test(line)))
    return `<ul>${lines.map((line) => `<li>${inline(line.replace(/^\s*[-*]\s+/, ""))}</li>`).join("")}</ul>`;
  if (lines.every((line) => /^\s*\d+\.\s/.test(line)))
    return `<ol>${lines.map((line) => `<li>${inline(line.replace(/^\s*\d+\.\s+/, ""))}</li>`).join("")}</ol>`;
  if (lines.length > 1 && lines[0]!.includes("|") && TABLE_RULE.test(lines[1]!))
    return tableHtml(lines, inline);
  if (lines.every((line) => line.startsWith(">")))
    return `<blockquote>${inline(lines.map((line) => line.replace(/^>\s?/, "")).join(" "))}</blockquote>`;
  return `<p>${inline(lines.join("\n"))}</p>`;
}

const TABLE_RULE = /^\s*\|?(?:\s*:?-+:?\s*\|)+(?:\s*:?-+:?\s*)?$/;

/** A table; each cell is aligned by a block inside it, which every page leaves as it is. */
function tableHtml([head = "", rule = "", ...rows]: readonly string[], inline: Inline): string {
  const align = cellsOf(rule).map((mark) =>
    mark.endsWith(":") ? (mark.startsWith(":") ? "center" : "right") : "left",
  );
  const row = (line: string, tag: "td" | "th"): string =>
    `<tr>${cellsOf(line)
      .map((cell, k) => `<${tag}><div align="${align[k] ?? "left"}">${inline(cell)}</div></${tag}>`)
      .join("")}</tr>`;
  return `<table><thead>${row(head, "th")}</thead><tbody>${rows.map((line) => row(line, "td")).join("")}</tbody></table>`;
}

function cellsOf(line: string): string[] {
  return line
    .trim()
    .replace(/^\||(?<!\\)\|$/g, "")
    .split(/(?<!\\)\|/)
    .map((cell) => cell.trim());
}

/**
 * A mark that stands for itself behind a backslash, code, or a formula: as in other Markdown no space stands inside the single dollar signs, and no
 * digit follows.
 */
const CODE_OR_FORMULA =
  /\\([\\`*_[\]{}|~$#.!()+-])|`([^`]+)`|\$\$([^$]+)\$\$|\$(?!\s)([^$\n]+?)(?<!\s)\$(?!\d)/g;
/**
 * Stands for a piece already written, while the text around it is; Unicode keeps it from having a
 * meaning of its own.
 */
const PLACE = "\ufdd0";

function inlineHtml(text: string, { formula }: Pick<Sanitiser, "formula">): string {
  const written: string[] = [];
  const keep = (html: string): string => {
    written.push(html);
    return PLACE;
  };
  const around = text
    .replaceAll(PLACE, "\ufffd")
    .replace(
      CODE_OR_FORMULA,
      (all, mark?: string, code?: string, display?: string, within?: string) => {
        if (mark !== undefined) return keep(escapeText(mark));
        if (code !== undefined) return keep(`<code>${escapeText(code)}</code>`);
        return keep(formula(display ?? within ?? "", display !== undefined) ?? escapeText(all));
      },
    );
  return (
    escapeText(around)
      .replace(/\*\*([^*]+)\*\*/g, "<strong>$1</strong>")
      // A star that times two things, or ends a footnote mark, stands beside a space or a letter on
      // its other side.
      .replace(/(?<![\p{L}\p{N}*])\*(?![\s*])([^*\n]+)(?<!\s)\*(?![\p{L}\p{N}*])/gu, "<em>$1</em>")
      .replaceAll(PLACE, () => written.shift() ?? "")
  );
}
