import type { TextMeasure } from "./fonts";
import {
  type Box,
  emptyBox,
  identity,
  joinBoxes,
  multiply,
  parseTransform,
  transformBox,
} from "./matrix";
import { pathBox } from "./paths";
import { textBox } from "./text-boxes";

const unseen = new Set(["defs", "clippath", "title", "style", "metadata"]);

/** Box of an SVG element in its own coordinates, as `getBBox` gives it. */
export function elementBox(element: Element, measure: TextMeasure): Box {
  const tag = element.tagName.toLowerCase();
  const number = (name: string): number => Number.parseFloat(element.getAttribute(name) ?? "") || 0;
  switch (tag) {
    case "text":
    case "tspan":
      return textBox(element, measure);
    case "rect":
    case "image":
    case "svg":
      return { x: number("x"), y: number("y"), width: number("width"), height: number("height") };
    case "circle":
      return {
        x: number("cx") - number("r"),
        y: number("cy") - number("r"),
        width: 2 * number("r"),
        height: 2 * number("r"),
      };
    case "line":
      return {
        x: Math.min(number("x1"), number("x2")),
        y: Math.min(number("y1"), number("y2")),
        width: Math.abs(number("x2") - number("x1")),
        height: Math.abs(number("y2") - number("y1")),
      };
    case "path":
      return pathBox(element.getAttribute("d"));
    default:
      return boxOfChildren(element, measure);
  }
}

function boxOfChildren(element: Element, measure: TextMeasure): Box {
  let whole: Box | null = null;
  for (const child of Array.from(element.children)) {
    if (unseen.has(child.tagName.toLowerCase()) || (child as SVGElement).style?.display === "none")
      continue;
    const own = elementBox(child, measure);
    if (own.width === 0 && own.height === 0) continue;
    const placed = transformBox(own, parseTransform(child.getAttribute("transform")));
    whole = whole === null ? placed : joinBoxes(whole, placed);
  }
  return whole ?? emptyBox;
}

/**
 * Box of an element in the coordinates of the outermost SVG, as `getBoundingClientRect` gives it.
 */
export function placedBox(element: Element, measure: TextMeasure): Box {
  let matrix = identity;
  for (
    let e: Element | null = element;
    e !== null && e.tagName.toLowerCase() !== "svg";
    e = e.parentElement
  ) {
    matrix = multiply(parseTransform(e.getAttribute("transform")), matrix);
  }
  return transformBox(elementBox(element, measure), matrix);
}
