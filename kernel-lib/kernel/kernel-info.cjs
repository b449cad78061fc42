"use strict";
// How the kernel introduces itself.

const LANGUAGE_VERSION = "5.0.4";

/** Reply to `kernel_info_request`, from what tslab would answer. */
function kernelInfo(info) {
  return {
    ...info,
    status: "ok",
    implementation: "code-comparison",
    implementation_version: require("../package.json").version,
    language_info: { ...info.language_info, version: LANGUAGE_VERSION },
    banner: [
      `Code comparison (TypeScript) ${require("../package.json").version} on Node ${process.version.slice(1)}`,
      "Research use: compares tests with code predictions. Proposed factors are not code; demonstration data are invented.",
      "Anchorage failures can kill. Design follows the local code and a licensed engineer.",
    ].join("\n"),
    help_links: [],
  };
}

module.exports = { kernelInfo };
