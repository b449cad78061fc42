export function tidySvg(svg: string): string { return svg; }
