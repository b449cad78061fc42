import type { TextMeasure } from "./fonts";
import { faceOf } from "./fonts";
import { type Box, emptyBox } from "./matrix";

const defaultFontSize = 12;

/** An inherited presentation property, from the element or its nearest ancestor that states it. */
function inherited(element: Element, property: string): string {
  for (let e: Element | null = element; e !== null; e = e.parentElement) {
    const styled = (e as SVGElement).style?.getPropertyValue(property);
    if (styled) return styled;
    const attribute = e.getAttribute(property);
    if (attribute) return attribute;
  }
  return "";
}

function lengthIn(value: string, fontSize: number): number {
  const number = Number.parseFloat(value);
  if (!Number.isFinite(number)) return 0;
  if (value.endsWith("em")) return number * fontSize;
  if (value.endsWith("%")) return (number / 100) * fontSize;
  if (value.endsWith("pt")) return (number * 4) / 3;
  return number;
}

/** Font size in pixels; a relative size (sub- and superscripts) is taken of the parent's size. */
export function fontSizeOf(element: Element): number {
  const own =
    (element as SVGElement).style?.getPropertyValue("font-size") ||
    element.getAttribute("font-size") ||
    "";
  const relative = own.endsWith("em") || own.endsWith("%");
  if (own !== "" && !relative) return lengthIn(own, defaultFontSize);
  const base = element.parentElement === null ? defaultFontSize : fontSizeOf(element.parentElement);
  return own === "" ? base : lengthIn(own, base);
}

interface Line {
  start: number;
  width: number;
  readonly marks: { baseline: number; size: number }[];
}

/**
 * Box of a `<text>` or `<tspan>`: every line with its anchor, shifted baselines for sub- and
 * superscripts.
 */
export function textBox(text: Element, measure: TextMeasure): Box {
  const anchor = inherited(text, "text-anchor");
  const lines: Line[] = [];
  const shift = lengthIn(text.getAttribute("dy") ?? "", fontSizeOf(text));
  let baseline = (Number.parseFloat(text.getAttribute("y") ?? "") || 0) + shift;
  let line: Line = {
    start: Number.parseFloat(text.getAttribute("x") ?? "") || 0,
    width: 0,
    marks: [],
  };
  lines.push(line);

  const visit = (node: Node): void => {
    if (node.nodeType === 3) {
      const content = (node.nodeValue ?? "").replace(/\u200b/g, "");
      const parent = node.parentElement;
      if (content === "" || parent === null) return;
      const size = fontSizeOf(parent);
      const weight = inherited(parent, "font-weight");
      const face = faceOf(
        weight === "bold" || Number(weight) >= 600,
        inherited(parent, "font-style") === "italic",
      );
      line.width += measure.width(content, size, face);
      line.marks.push({ baseline, size });
      return;
    }
    if (node.nodeType !== 1) return;
    const element = node as Element;
    if (element !== text) {
      const size = fontSizeOf(element);
      const x = element.getAttribute("x");
      const y = element.getAttribute("y");
      if (x !== null) {
        line = { start: Number.parseFloat(x) || 0, width: 0, marks: [] };
        lines.push(line);
      }
      if (y !== null) baseline = Number.parseFloat(y) || 0;
      const dy = element.getAttribute("dy");
      if (dy !== null) baseline += lengthIn(dy, size);
      const dx = element.getAttribute("dx");
      if (dx !== null) line.width += lengthIn(dx, size);
    }
    element.childNodes.forEach(visit);
  };
  visit(text);
  return boxOfLines(lines, anchor, measure);
}

function boxOfLines(lines: readonly Line[], anchor: string, measure: TextMeasure): Box {
  let left = Infinity;
  let right = -Infinity;
  let top = Infinity;
  let bottom = -Infinity;
  for (const line of lines) {
    if (line.marks.length === 0) continue;
    const shift = anchor === "middle" ? line.width / 2 : anchor === "end" ? line.width : 0;
    left = Math.min(left, line.start - shift);
    right = Math.max(right, line.start - shift + line.width);
    for (const { baseline, size } of line.marks) {
      top = Math.min(top, baseline - measure.ascent * size);
      bottom = Math.max(bottom, baseline + measure.descent * size);
    }
  }
  return left === Infinity
    ? emptyBox
    : { x: left, y: top, width: right - left, height: bottom - top };
}
