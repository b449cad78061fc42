import { NUMBER_FORMATS } from "./number-format";
import type { CellLook } from "./sheet";

interface Look {
  readonly font: number;
  readonly fill: number;
  readonly border: number;
  readonly format: number;
  readonly align: string;
}

const top = (more = ""): string => `<alignment vertical="top"${more}/>`;
/**
 * Each look can show its numbers in each of the ways of `NUMBER_FORMATS`; `format` 0 leaves the
 * choice to the number.
 */
const LOOKS: Readonly<Record<CellLook, Look>> = {
  plain: { font: 0, fill: 0, border: 0, format: 0, align: top() },
  title: { font: 1, fill: 0, border: 0, format: 0, align: top() },
  heading: { font: 2, fill: 2, border: 2, format: 0, align: top(' wrapText="1"') },
  headingRight: {
    font: 2,
    fill: 2,
    border: 2,
    format: 0,
    align: top(' horizontal="right" wrapText="1"'),
  },
  headingIndented: {
    font: 2,
    fill: 2,
    border: 2,
    format: 0,
    align: top(' horizontal="left" indent="1" wrapText="1"'),
  },
  unit: { font: 0, fill: 0, border: 0, format: 0, align: top(' horizontal="left" indent="1"') },
  section: { font: 2, fill: 0, border: 2, format: 0, align: top() },
  input: { font: 0, fill: 3, border: 1, format: 0, align: top() },
  wrapped: { font: 0, fill: 0, border: 0, format: 0, align: top(' wrapText="1"') },
  note: { font: 3, fill: 0, border: 0, format: 0, align: top(' wrapText="1"') },
  result: { font: 2, fill: 4, border: 1, format: 0, align: top() },
  strong: { font: 2, fill: 0, border: 0, format: 0, align: top(' wrapText="1"') },
  integer: { font: 0, fill: 0, border: 0, format: 1, align: top() },
};
const ORDER = Object.keys(LOOKS) as CellLook[];

/** Looks whose text runs over several lines. */
export const WRAPPED: ReadonlySet<CellLook> = new Set<CellLook>(
  ORDER.filter((look) => LOOKS[look].align.includes("wrapText")),
);

/**
 * Index of a look in the style sheet: guarded ones for text that starts like a formula, others by
 * the format of their number.
 */
export function styleIndex(look: CellLook, guarded: boolean, numberFormat = 0): number {
  return ORDER.indexOf(look) + ORDER.length * (guarded ? NUMBER_FORMATS.length : numberFormat);
}

/** Numbers of custom formats begin here (ISO/IEC 29500-1, 18.8.30). */
const FIRST_CUSTOM = 164;

function format(
  { font, fill, border, format: own, align }: Look,
  guarded: boolean,
  numberFormat: number,
): string {
  const number = guarded || own !== 0 ? own : FIRST_CUSTOM + numberFormat;
  return `<xf numFmtId="${number}" fontId="${font}" fillId="${fill}" borderId="${border}" xfId="0" applyFont="1" applyFill="1" applyBorder="1" applyAlignment="1"${number === 0 ? "" : ' applyNumberFormat="1"'}${guarded ? ' quotePrefix="1"' : ""}>${align}</xf>`;
}

const font = (inside: string, size = 10): string =>
  `<font>${inside}<sz val="${size}"/><color rgb="FF1A1A1A"/><name val="DejaVu Sans"/><family val="2"/></font>`;
const fill = (rgb: string): string =>
  `<fill><patternFill patternType="solid"><fgColor rgb="${rgb}"/><bgColor indexed="64"/></patternFill></fill>`;
const side = (name: string, style: string): string =>
  `<${name} style="${style}"><color rgb="FF808080"/></${name}>`;

/** `xl/styles.xml`. */
export function stylesXml(): string {
  const formats = [
    ...NUMBER_FORMATS.flatMap((_, n) => ORDER.map((look) => format(LOOKS[look], false, n))),
    ...ORDER.map((look) => format(LOOKS[look], true, 0)),
  ];
  return `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><numFmts count="${NUMBER_FORMATS.length}">${NUMBER_FORMATS.map((code, n) => `<numFmt numFmtId="${FIRST_CUSTOM + n}" formatCode="${code.replace(/"/g, "&quot;").replace(/</g, "&lt;").replace(/>/g, "&gt;")}"/>`).join("")}</numFmts><fonts count="4">${font("")}${font("<b/>", 14)}${font("<b/>")}${font("<i/>")}</fonts><fills count="5"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill>${fill("FFE6E6E6")}${fill("FFFFF5CC")}${fill("FFEEF3F8")}</fills><borders count="3"><border><left/><right/><top/><bottom/><diagonal/></border><border>${side("left", "thin")}${side("right", "thin")}${side("top", "thin")}${side("bottom", "thin")}<diagonal/></border><border><left/><right/><top/>${side("bottom", "thin")}<diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="${formats.length}">${formats.join("")}</cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`;
}
