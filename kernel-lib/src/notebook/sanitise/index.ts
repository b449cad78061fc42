export { createSanitiser, escapeText } from "./sanitise";
export type { SanitiseAdditions, Sanitiser } from "./sanitise";
