"use strict";
// What hovering over a name shows: its type, then its documentation with every tag named.

/** The text for the compiler's description of a name. */
function hoverText(info) {
  const declaration = joined(info.displayParts)
    // An imported name is an alias for the function; readers look for the function.
    .replace(/^\(alias\) /, "")
    .replace(/\nimport [^\n]*$/, "");
  const documentation = joined(info.documentation);
  const tags = (info.tags ?? []).map((tag) => tagText(tag)).filter((text) => text !== "");
  return [declaration, documentation, tags.join("\n")].filter((part) => part !== "").join("\n\n");
}

function tagText({ name, text }) {
  const words = joined(text).trim();
  if (words === "" && name !== "deprecated") return "";
  if (name === "example") return `example:\n${words.replace(/^```\w*\n?|```$/gm, "").trimEnd()}`;
  return `${name === "param" ? "" : `${name}: `}${words}`;
}

function joined(parts) {
  return (parts ?? []).map((part) => part.text).join("");
}

module.exports = { hoverText };
