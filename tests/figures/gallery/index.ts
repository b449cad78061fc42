import type { Figure } from "../../../kernel-lib/src/figures";
import { ownFigures } from "./own";
import { ratioFigures } from "./ratios";
import { studyFigures } from "./studies";

/**
 * One figure of each kind with invented, seeded data: what the layout tests measure and a person
 * looks at.
 */
export const gallery: readonly (() => Figure)[] = [...ratioFigures, ...studyFigures, ...ownFigures];
