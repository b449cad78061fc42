import type { DOMWindow } from "jsdom";

/**
 * Makes a window's selections forgettable. jsdom remembers for every selector the element it was last asked on, and
 * with it the whole drawing that the element belongs to: 24 MB of a figure with some hundred marks.
 *
 * @returns a function that lets go of those elements, by asking every selector again on an empty one
 */
export function forgettableSelections(window: DOMWindow): () => void {
  const asked = new Set<string>();
  const prototype = window.Element.prototype;
  const { querySelector, querySelectorAll } = prototype;
  prototype.querySelector = function (this: Element, selector: string): Element | null {
    asked.add(selector);
    return querySelector.call(this, selector);
  };
  prototype.querySelectorAll = function (this: Element, selector: string): NodeListOf<Element> {
    asked.add(selector);
    return querySelectorAll.call(this, selector);
  } as typeof querySelectorAll;
  const empty = window.document.createElement("i");
  return () => {
    for (const selector of asked) querySelectorAll.call(empty, selector);
    asked.clear();
  };
}
