declare module "fontkit" {
  /** The part of a font that text measurement needs. */
  export interface MeasuredFont {
    readonly unitsPerEm: number;
    readonly ascent: number;
    readonly descent: number;
    layout(text: string): { readonly advanceWidth: number };
  }
  export function openSync(file: string): MeasuredFont;
}

declare module "svg-to-pdfkit" {
  interface SvgToPdfOptions {
    width?: number;
    height?: number;
    assumePt?: boolean;
    fontCallback?: (family: string, bold: boolean, italic: boolean) => string;
    warningCallback?: (message: string) => void;
  }
  function svgToPdf(
    document: object,
    svg: string,
    x: number,
    y: number,
    options?: SvgToPdfOptions,
  ): void;
  export default svgToPdf;
}
