/** What may be shown of a notebook's HTML and SVG. Everything that is not listed is left out. */

export const HTML_ELEMENTS: ReadonlySet<string> = new Set(
  "a abbr b bdi blockquote br caption code col colgroup dd del details div dl dt em figcaption figure h1 h2 h3 h4 h5 h6 hr i ins kbd li mark ol p pre q s samp small span strong sub summary sup table tbody td tfoot th thead tr u ul var".split(" "),
);

export const SVG_ELEMENTS: ReadonlySet<string> = new Set(
  "svg g defs title desc path line polyline polygon rect circle ellipse text tspan clippath lineargradient radialgradient stop marker symbol use mask pattern image".split(" "),
);

/** Elements whose content goes with them: it is not text for a reader. */
export const DROPPED_WITH_CONTENT: ReadonlySet<string> = new Set(
  "script style iframe object embed template noscript math foreignobject form textarea select option button audio video canvas head title link meta base".split(" "),
);

// No class: an output must not take on the looks of the page around it.
const GENERAL_ATTRIBUTES = "title lang dir role scope colspan rowspan headers abbr span start open datetime".split(" ");
const SVG_ATTRIBUTES =
  "id x y x1 x2 y1 y2 cx cy r rx ry d points width height viewbox preserveaspectratio transform fill fill-opacity fill-rule clip-path clip-rule clippathunits stroke stroke-width stroke-opacity stroke-dasharray stroke-dashoffset stroke-linecap stroke-linejoin stroke-miterlimit opacity font-family font-size font-weight font-style text-anchor dominant-baseline alignment-baseline dx dy rotate textlength lengthadjust offset stop-color stop-opacity gradientunits gradienttransform spreadmethod fx fy marker-start marker-mid marker-end markerwidth markerheight markerunits refx refy orient patternunits patterntransform maskunits xml:space xmlns visibility display shape-rendering text-rendering vector-effect".split(" ");

const HTML_ALLOWED: ReadonlySet<string> = new Set(GENERAL_ATTRIBUTES);
const SVG_ALLOWED: ReadonlySet<string> = new Set([...GENERAL_ATTRIBUTES, ...SVG_ATTRIBUTES]);

const STYLE_PROPERTIES =
  /^(?:text-align|vertical-align|font-(?:weight|style|size|family|variant|variant-numeric)|color|background-color|border(?:-[a-z-]+)?|padding(?:-[a-z]+)?|white-space|width|height|max-width|fill(?:-opacity|-rule)?|stroke(?:-[a-z]+)?|opacity|text-anchor|dominant-baseline|display|visibility|clip-path|stop-color|stop-opacity)$/;

// Only a fragment of the same picture may be referred to, never an address.
const FRAGMENT = /^#[\w:.-]+$/;
const FRAGMENT_URL = /^url\((['"]?)#[\w:.-]+\1\)$/;

// The shading of a heat map comes as a picture inside the picture: pixels only, nothing fetched.
const PIXELS = /^data:image\/png;base64,[A-Za-z0-9+/]+=*$/;

/** The value under which an attribute (in small letters) of an element may stay; undefined when it may not. */
export function allowedValue(inSvg: boolean, element: string, name: string, value: string): string | undefined {
  if (name === "style") return allowedStyle(value);
  if (name.startsWith("data-") || name.startsWith("aria-")) return value;
  if (inSvg && (name === "href" || name === "xlink:href")) return (element === "image" ? PIXELS : FRAGMENT).test(value) ? value : undefined;
  if (!(inSvg ? SVG_ALLOWED : HTML_ALLOWED).has(name)) return undefined;
  return /url\s*\(|javascript:|expression\s*\(/i.test(value) && !FRAGMENT_URL.test(value.trim()) ? undefined : value;
}

function allowedStyle(style: string): string | undefined {
  const kept = style
    .split(";")
    .map((declaration) => declaration.split(/:(.*)/s).map((part) => part.trim()))
    .filter(([property = "", value = ""]) => STYLE_PROPERTIES.test(property.toLowerCase()) && isPlainValue(value));
  return kept.length > 0 ? kept.map(([property, value]) => `${property}: ${value}`).join("; ") : undefined;
}

// A backslash can spell "url(" in ways a pattern does not see.
function isPlainValue(value: string): boolean {
  return FRAGMENT_URL.test(value) || !/[\\<>@{}]|\/\*|url|expression|image|var\s*\(|attr\s*\(|javascript/i.test(value);
}
