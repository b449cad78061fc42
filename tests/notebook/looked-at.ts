import type { Page } from "playwright-core";

/** What is wrong with the outputs of a notebook as a page shows them. */
export interface Looked {
  /** Pictures drawn with area and ink. */
  readonly pictures: number;
  readonly faults: readonly string[];
}

/**
 * Looks at the outputs that the selector names: pictures have area and ink, texts hold neither TeX
 * nor Markdown nor markup, cells of words stand at the left, and nothing is wider than the page.
 */
export function lookedAt(page: Page, outputs: string): Promise<Looked> {
  return page.evaluate(async (selector) => {
    const faults: string[] = [];
    const places = [...document.querySelectorAll<HTMLElement>(selector)];
    if (places.length === 0) faults.push("no output is shown");

    /** Share of the pixels that are not paper. */
    const ink = async (image: HTMLImageElement): Promise<number> => {
      await image.decode();
      const canvas = document.createElement("canvas");
      [canvas.width, canvas.height] = [300, 200];
      const context = canvas.getContext("2d")!;
      context.fillStyle = "#fff";
      context.fillRect(0, 0, 300, 200);
      context.drawImage(image, 0, 0, 300, 200);
      const { data } = context.getImageData(0, 0, 300, 200);
      let dark = 0;
      for (let at = 0; at < data.length; at += 4)
        if (data[at]! + data[at + 1]! + data[at + 2]! < 690) dark += 1;
      return dark / (data.length / 4);
    };

    let pictures = 0;
    const wide = document.documentElement.clientWidth;
    for (const [k, place] of places.entries()) {
      const at = `output ${k + 1} (${place.innerText.slice(0, 40).replace(/\s+/g, " ")})`;
      for (const image of place.querySelectorAll("img")) {
        const { width, height } = image.getBoundingClientRect();
        const share = await ink(image).catch(() => 0);
        if (width < 200 || height < 80) faults.push(`${at}: a picture of ${width} by ${height}`);
        else if (share < 0.005) faults.push(`${at}: a picture without ink`);
        else pictures += 1;
        if (image.alt.length < 20) faults.push(`${at}: a picture without words beside it`);
      }
      const text = place.innerText;
      for (const [what, pattern] of [
        ["TeX", /\\(?:mathrm|frac|psi|left|text|,)|\$\$/],
        ["Markdown", /\*\*|^\s*[-*] \S|^#+ |\|\s*:?-{3,}/m],
        ["markup", /<\/?[a-z]+[^<>]*>/i],
      ] as const) {
        const found = pattern.exec(text);
        if (found) faults.push(`${at}: ${what} in the text: ${found[0]}`);
      }
      for (const words of place.querySelectorAll("td div[align=left]"))
        if (!/left|start/.test(getComputedStyle(words).textAlign))
          faults.push(`${at}: words of a table stand ${getComputedStyle(words).textAlign}`);
      // Where a box scrolls sideways its content is cut off at the page's edge all the same.
      for (const part of place.querySelectorAll("table, img, p, li, div, pre"))
        if (part.getBoundingClientRect().right > wide + 1) {
          const { right } = part.getBoundingClientRect();
          faults.push(`${at}: ${part.localName} reaches ${Math.round(right)} of ${wide} px`);
          break;
        }
      const scrolls = [place, ...place.querySelectorAll<HTMLElement>("*")].find(
        (part) => part.clientWidth > 0 && part.scrollWidth > part.clientWidth + 2,
      );
      if (scrolls)
        faults.push(
          `${at}: ${scrolls.localName} ${scrolls.className} holds ${scrolls.scrollWidth} of ${scrolls.clientWidth} px`,
        );
    }
    return { pictures, faults };
  }, outputs);
}

/**
 * What a page that is not trusted leaves of an output: no style, and of elements it does not know,
 * such as MathML and inline SVG, the text alone. (After what the sanitizers of the classic notebook
 * and of its successor let pass, read in July 2022 and 2023 versions.)
 */
export function stripAsUntrusted(page: Page, outputs: string): Promise<void> {
  return page.evaluate((selector) => {
    for (const place of document.querySelectorAll(selector)) {
      for (const style of place.querySelectorAll("style, script")) style.remove();
      for (const styled of place.querySelectorAll("[style]")) styled.removeAttribute("style");
      for (const unknown of place.querySelectorAll("math, svg, section"))
        if (unknown.localName !== "section") unknown.replaceWith(unknown.textContent ?? "");
        else unknown.replaceWith(...unknown.childNodes);
    }
  }, outputs);
}
