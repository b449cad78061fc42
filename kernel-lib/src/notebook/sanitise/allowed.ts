/**
 * What may be shown of a notebook's HTML, SVG and MathML. Everything that is not listed is left
 * out.
 */

/** The language an element belongs to, by its namespace. */
export type MarkupLanguage = "html" | "svg" | "math";

const HTML_ELEMENTS: ReadonlySet<string> = new Set(
  "a abbr b bdi blockquote br caption code col colgroup dd del details div dl dt em figcaption figure h1 h2 h3 h4 h5 h6 hr i ins kbd li mark ol p pre q s samp small span strong sub summary sup table tbody td tfoot th thead tr u ul var".split(
    " ",
  ),
);

const SVG_ELEMENTS: ReadonlySet<string> = new Set(
  "svg g defs title desc path line polyline polygon rect circle ellipse text tspan clippath lineargradient radialgradient stop marker symbol use mask pattern image".split(
    " ",
  ),
);

// Formulas in presentation markup; what can hold HTML or a link (annotation-xml, mglyph, maction)
// is not among them.
const MATH_ELEMENTS: ReadonlySet<string> = new Set(
  "math semantics mrow mi mo mn mtext mspace mpadded mphantom mfrac msqrt mroot msub msup msubsup munder mover munderover mmultiscripts mprescripts mtable mtr mtd mstyle".split(
    " ",
  ),
);

/** The elements of each language that may be shown. */
export const ELEMENTS: Readonly<Record<MarkupLanguage, ReadonlySet<string>>> = {
  html: HTML_ELEMENTS,
  svg: SVG_ELEMENTS,
  math: MATH_ELEMENTS,
};

/** Elements whose content goes with them: it is not text for a reader. */
export const DROPPED_WITH_CONTENT: ReadonlySet<string> = new Set(
  "script style iframe object embed template noscript annotation annotation-xml mglyph malignmark maction foreignobject form textarea select option button audio video canvas head title link meta base".split(
    " ",
  ),
);

// No class: an output must not take on the looks of the page around it.
const GENERAL_ATTRIBUTES =
  "title lang dir role scope colspan rowspan headers abbr span start open datetime".split(" ");
const SVG_ATTRIBUTES =
  "id x y x1 x2 y1 y2 cx cy r rx ry d points width height viewbox preserveaspectratio transform fill fill-opacity fill-rule clip-path clip-rule clippathunits stroke stroke-width stroke-opacity stroke-dasharray stroke-dashoffset stroke-linecap stroke-linejoin stroke-miterlimit opacity font-family font-size font-weight font-style text-anchor dominant-baseline alignment-baseline dx dy rotate textlength lengthadjust offset stop-color stop-opacity gradientunits gradienttransform spreadmethod fx fy marker-start marker-mid marker-end markerwidth markerheight markerunits refx refy orient patternunits patterntransform maskunits xml:space xmlns visibility display shape-rendering text-rendering image-rendering vector-effect".split(
    " ",
  );

const MATH_ATTRIBUTES =
  "display displaystyle scriptlevel mathvariant lspace rspace width height depth voffset linethickness columnalign rowalign columnspacing rowspacing columnlines rowlines stretchy fence separator form accent accentunder largeop movablelimits minsize maxsize symmetric xmlns".split(
    " ",
  );

const ATTRIBUTES: Readonly<Record<MarkupLanguage, ReadonlySet<string>>> = {
  html: new Set(GENERAL_ATTRIBUTES),
  svg: new Set([...GENERAL_ATTRIBUTES, ...SVG_ATTRIBUTES]),
  math: new Set([...GENERAL_ATTRIBUTES, ...MATH_ATTRIBUTES]),
};

const STYLE_PROPERTIES =
  /^(?:text-align|table-layout|vertical-align|font-(?:weight|style|size|family|variant|variant-numeric)|color|background-color|border(?:-[a-z-]+)?|padding(?:-[a-z]+)?|white-space|width|height|max-width|fill(?:-opacity|-rule)?|stroke(?:-[a-z]+)?|opacity|text-anchor|dominant-baseline|display|visibility|clip-path|stop-color|stop-opacity|image-rendering)$/;

// Only a fragment of the same picture may be referred to, never an address.
const FRAGMENT = /^#[\w:.-]+$/;
const FRAGMENT_URL = /^url\((['"]?)#[\w:.-]+\1\)$/;

// The shading of a heat map comes as a picture inside the picture: pixels only, nothing fetched.
const PIXELS = /^data:image\/png;base64,[A-Za-z0-9+/]+=*$/;

/**
 * The value under which an attribute (in small letters) of an element may stay; undefined when it
 * may not.
 */
export function allowedValue(
  language: MarkupLanguage,
  element: string,
  name: string,
  value: string,
): string | undefined {
  if (name === "style") return allowedStyle(value);
  if (/^(?:data|aria)-[\w.-]+$/.test(name)) return value;
  if (language === "svg" && (name === "href" || name === "xlink:href"))
    return (element === "image" ? PIXELS : FRAGMENT).test(value) ? value : undefined;
  if (!ATTRIBUTES[language].has(name)) return undefined;
  return /url\s*\(|javascript:|expression\s*\(/i.test(value) && !FRAGMENT_URL.test(value.trim())
    ? undefined
    : value;
}

function allowedStyle(style: string): string | undefined {
  const kept = style
    .split(";")
    .map((declaration) => declaration.split(/:(.*)/s).map((part) => part.trim()))
    .filter(
      ([property = "", value = ""]) =>
        STYLE_PROPERTIES.test(property.toLowerCase()) && isPlainValue(value),
    );
  return kept.length > 0
    ? kept.map(([property, value]) => `${property}: ${value}`).join("; ")
    : undefined;
}

// A backslash can spell "url(" in ways a pattern does not see.
function isPlainValue(value: string): boolean {
  return (
    FRAGMENT_URL.test(value) ||
    !/[\\<>@{}]|\/\*|url|expression|image|var\s*\(|attr\s*\(|javascript/i.test(value)
  );
}
