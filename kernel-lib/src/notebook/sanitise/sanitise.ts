import { DROPPED_WITH_CONTENT, ELEMENTS, allowedValue } from "./allowed";
import type { MarkupLanguage } from "./allowed";
import { createFormulaWriter } from "./formulas";

const LANGUAGES: Readonly<Record<string, MarkupLanguage>> = {
  "http://www.w3.org/2000/svg": "svg",
  "http://www.w3.org/1998/Math/MathML": "math",
};

/** What to add while markup is rebuilt. */
export interface SanitiseAdditions {
  /**
   * Put before every id and every reference to one, so that two pictures on one page do not meet.
   */
  readonly idPrefix?: string;
  /** A note to show at the end of an element, or undefined. */
  readonly noteOf?: (element: Element) => string | undefined;
}

/**
 * Rebuilds HTML, SVG and MathML from what the allow-list knows. Nothing of the original markup is
 * passed on.
 */
export interface Sanitiser {
  (markup: string, additions?: SanitiseAdditions): string;
  /**
   * A LaTeX formula as MathML, rebuilt in the same way; undefined where it cannot be read as one.
   */
  readonly formula: (latex: string, display: boolean) => string | undefined;
}

/**
 * Prepares a sanitiser. The markup is parsed into an inert document (no script runs, nothing is
 * loaded) and written out anew, element by element and attribute by attribute; what is not
 * allowed is left out, the text inside an unknown element is kept.
 */
export async function createSanitiser(): Promise<Sanitiser> {
  const [{ JSDOM }, write] = await Promise.all([import("jsdom"), createFormulaWriter()]);
  const { window } = new JSDOM("");
  const sanitise = (markup: string, additions: SanitiseAdditions = {}): string => {
    const template = window.document.createElement("template");
    template.innerHTML = markup;
    return childrenOf(template.content, "html", 0, additions);
  };
  const formula = (latex: string, display: boolean): string | undefined => {
    const written = write(latex, display);
    return written === undefined ? undefined : sanitise(written);
  };
  return Object.assign(sanitise, { formula });
}

// Deeper nesting than a table in a list ever needs would overflow the stack.
const DEEPEST = 200;

function childrenOf(
  node: Node,
  within: MarkupLanguage,
  depth: number,
  additions: SanitiseAdditions,
): string {
  if (depth > DEEPEST) return "";
  let out = "";
  for (const child of Array.from(node.childNodes)) {
    if (child.nodeType === 3) out += escapeText(child.nodeValue ?? "");
    else if (child.nodeType === 1) out += elementOf(child as Element, within, depth, additions);
  }
  return out;
}

function elementOf(
  element: Element,
  within: MarkupLanguage,
  depth: number,
  additions: SanitiseAdditions,
): string {
  const name = element.localName.toLowerCase();
  const language = LANGUAGES[element.namespaceURI ?? ""] ?? "html";
  if (DROPPED_WITH_CONTENT.has(name) && !(language === "svg" && name === "title")) return "";
  const note = additions.noteOf?.(element);
  const inner =
    childrenOf(element, within === "html" ? language : within, depth + 1, additions) +
    (note === undefined ? "" : ` <strong class="differs">${escapeText(note)}</strong>`);
  // Pictures and formulas stand in HTML and hold nothing of another language: a mixture may be read
  // otherwise the second time.
  if (!ELEMENTS[language].has(name) || (within !== "html" && within !== language)) return inner;
  let attributes = "";
  for (const { name: attribute, value } of Array.from(element.attributes)) {
    const allowed = allowedValue(language, name, attribute.toLowerCase(), value);
    if (allowed !== undefined)
      attributes += ` ${attribute}="${escapeText(prefixed(attribute.toLowerCase(), allowed, additions.idPrefix))}"`;
  }
  // SVG keeps its mixed-case names (viewBox, clipPath); HTML's void elements have no end tag.
  const tag = language === "svg" ? element.localName : name;
  if (language === "html" && (tag === "br" || tag === "hr" || tag === "col"))
    return `<${tag}${attributes}>`;
  return `<${tag}${attributes}>${inner}</${tag}>`;
}

/** An attribute's value with the prefix before each id it sets or refers to. */
function prefixed(name: string, value: string, prefix: string | undefined): string {
  if (prefix === undefined) return value;
  if (name === "id") return `${prefix}${value}`;
  if (
    /^aria-(?:labelledby|describedby|controls|owns|details|flowto|activedescendant|errormessage)$/.test(
      name,
    )
  )
    return value
      .trim()
      .split(/\s+/)
      .map((id) => `${prefix}${id}`)
      .join(" ");
  if (name === "href" || name === "xlink:href") return value.replace(/^#/, `#${prefix}`);
  return value.replace(/url\((['"]?)#/g, `url($1#${prefix}`);
}

/** Makes a text harmless inside HTML and inside a quoted attribute. */
export function escapeText(text: string): string {
  return text
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;")
    .replace(/'/g, "&#39;");
}
