import type { CodeDefinition } from "./definition";
import { testedByOf } from "./tested-by";

/** For codes of bars in drilled holes without factors for how the hole was made. */
export const INSTALLATION_UNCOUNTED =
  "Direction of installation, drilling, cleaning and moisture of the hole, and temperature at installation and during the test do not change any capacity. " +
  "Where they matter, the bond strength of the row must be that of the product under these conditions. Results can be grouped by them.";

const CAST_IN_ONLY =
  "Temperature during the test does not change any capacity. The columns on drilled holes do not apply to cast-in bars.";

/**
 * What a code makes of the conditions of installation and of temperature, for its card.
 * @example installationWords(code("ccd-1995"))
 */
export function installationWords(code: CodeDefinition): string {
  const drilledIn = code.provisions.some((provision) =>
    testedByOf(code, provision).installations.includes("post_installed"),
  );
  return code.installation ?? (drilledIn ? INSTALLATION_UNCOUNTED : CAST_IN_ONLY);
}
