import type { DOMWindow } from "jsdom";
import { elementBox, placedBox } from "./element-boxes";
import { openFonts, type TextMeasure } from "./fonts";
import type { Box } from "./matrix";
import { pathLength } from "./paths";
import { PixelCanvas } from "./pixel-canvas";
import { textBox } from "./text-boxes";

/** A document without a browser, in which text and shapes can be measured. */
export interface LayoutWindow {
  readonly window: DOMWindow;
  readonly measure: TextMeasure;
}

/**
 * jsdom lays nothing out; the measurements that plotly asks for are answered from the shipped
 * fonts.
 */
export async function openLayoutWindow(): Promise<LayoutWindow> {
  const [{ JSDOM }, measure] = await Promise.all([import("jsdom"), openFonts()]);
  const { window } = new JSDOM("<!doctype html><html><body></body></html>", {
    runScripts: "outside-only",
    pretendToBeVisual: true,
  });
  answerMeasurements(window, measure);
  addMissingInterfaces(window);
  return { window, measure };
}

function answerMeasurements(window: DOMWindow, measure: TextMeasure): void {
  const svg = window.SVGElement.prototype as unknown as Record<string, unknown>;
  svg["getBBox"] = function (this: Element): Box {
    return elementBox(this, measure);
  };
  svg["getComputedTextLength"] = function (this: Element): number {
    return textBox(this, measure).width;
  };
  svg["getTotalLength"] = function (this: Element): number {
    return pathLength(this.getAttribute("d")).total;
  };
  svg["getPointAtLength"] = function (this: Element, length: number): { x: number; y: number } {
    return pathLength(this.getAttribute("d")).at(length);
  };
  svg["getScreenCTM"] = (): object => ({ a: 1, b: 0, c: 0, d: 1, e: 0, f: 0, inverse: () => null });
  window.Element.prototype.getBoundingClientRect = function (this: Element): DOMRect {
    const box =
      this instanceof window.SVGElement
        ? placedBox(this, measure)
        : sizeOfBlock(this as HTMLElement);
    const edges = { left: box.x, top: box.y, right: box.x + box.width, bottom: box.y + box.height };
    return { ...box, ...edges, toJSON: () => box };
  };
}

function sizeOfBlock(block: HTMLElement): Box {
  const pixels = (length: string): number => Number.parseFloat(length) || 0;
  return { x: 0, y: 0, width: pixels(block.style.width), height: pixels(block.style.height) };
}

function addMissingInterfaces(window: DOMWindow): void {
  const global = window as unknown as Record<string, unknown>;
  global["TextDecoder"] ??= TextDecoder;
  global["TextEncoder"] ??= TextEncoder;
  const listener = (): void => undefined;
  global["matchMedia"] ??= (): object => ({
    matches: false,
    addListener: listener,
    removeListener: listener,
    addEventListener: listener,
    removeEventListener: listener,
  });
  (window.URL as unknown as Record<string, unknown>)["createObjectURL"] = (): string => "blob:none";
  const canvases = new WeakMap<object, PixelCanvas>();
  const canvas = window.HTMLCanvasElement.prototype as unknown as Record<string, unknown>;
  canvas["getContext"] = function (this: HTMLCanvasElement, kind: string): PixelCanvas | null {
    if (kind !== "2d") return null;
    const known = canvases.get(this) ?? new PixelCanvas(this);
    canvases.set(this, known);
    return known;
  };
  canvas["toDataURL"] = function (this: HTMLCanvasElement): string {
    return (canvases.get(this) ?? new PixelCanvas(this)).toDataUrl();
  };
}
