import type { DOMWindow } from "jsdom";

type Select = (this: Element, selector: string) => unknown;

/**
 * Makes a window's selections forgettable. jsdom remembers for every selector the element it was
 * last asked on, and with it the whole drawing that the element belongs to: 24 MB of a figure with
 * some hundred marks.
 *
 * @returns a function that lets go of those elements, by asking every selector again on an empty
 *   one
 */
export function forgettableSelections(window: DOMWindow): () => void {
  const asked = new Set<string>();
  const elements = window.Element.prototype as unknown as Record<
    "querySelector" | "querySelectorAll",
    Select
  >;
  const selectAll = elements.querySelectorAll;
  for (const name of ["querySelector", "querySelectorAll"] as const) {
    const select = elements[name];
    elements[name] = function (selector) {
      asked.add(selector);
      return select.call(this, selector);
    };
  }
  const empty = window.document.createElement("i");
  return () => {
    for (const selector of asked) selectAll.call(empty, selector);
    asked.clear();
  };
}
