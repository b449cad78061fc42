export { type FigureBundle, figureBundle } from "./bundle";
export { figureHtml } from "./html";
export { renderPdf } from "./pdf";
export { type PngOptions, renderPng, svgToPng } from "./png";
export { renderSvg } from "./svg";
