import { aashtoGfrpLength } from "./aashto-gfrp2-2018";
import { aci318Length, aci318MetricLength } from "./aci318-19";
import { aci440CodeLength } from "./aci440.11-22";
import { aci440GuideLength } from "./aci440.1r-15";
import { csaS806Length } from "./csa-s806-12";
import { en1992Length2004, en1992Length2023 } from "./en1992-1-1";
import { fibBasicLength, fibMeanLength } from "./fib-mc2010";
import { jsceLength } from "./jsce-1997";
import type { DevelopmentLengthRule } from "./model/development-length";

/** Every development length of the library. */
export const DEVELOPMENT_LENGTHS: readonly DevelopmentLengthRule[] = [
  aci318Length,
  aci318MetricLength,
  aci440GuideLength,
  aci440CodeLength,
  csaS806Length,
  aashtoGfrpLength,
  jsceLength,
  fibBasicLength,
  fibMeanLength,
  en1992Length2004,
  en1992Length2023,
];

/**
 * A development length by its id, or by its code's id where the code has one only.
 * @throws Error listing the ids there are.
 * @example developmentLengthRule("csa-s806-12")
 */
export function developmentLengthRule(id: string): DevelopmentLengthRule {
  const exact = DEVELOPMENT_LENGTHS.filter(({ code, definition }) => definition.id === id && !(code.id === "aci318-19m"));
  const ofCode = DEVELOPMENT_LENGTHS.filter(({ code }) => code.id === id);
  const [found] = exact.length > 0 ? exact : ofCode.length === 1 ? ofCode : [];
  if (!found) throw new Error(`No development length "${id}"; expected one of ${DEVELOPMENT_LENGTHS.map(({ code, definition }) => (definition.id.startsWith(`${code.id}/`) ? definition.id : code.id)).join(", ")}.`);
  return found;
}
