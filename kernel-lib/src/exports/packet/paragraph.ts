import type { Block } from "../document/document";

export const paragraph = (text: string): Block => ({ kind: "paragraph", text });
