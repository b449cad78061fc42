export { createSanitiser, escapeText } from "./sanitise";
export type { Sanitiser } from "./sanitise";
