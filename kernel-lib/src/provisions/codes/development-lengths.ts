import { didYouMean } from "../../dataset";
import { aashtoGfrpLength } from "./aashto-gfrp2-2018";
import {
  aci318Length,
  aci318MetricLength,
  aci318MetricSimplifiedLength,
  aci318SimplifiedLength,
} from "./aci318-19";
import { aci440CodeLength } from "./aci440.11-22";
import { aci440GuideLength } from "./aci440.1r-15";
import { csaS6Length } from "./csa-s6-14";
import { csaS806Length } from "./csa-s806-12";
import { en1992Length2004, en1992Length2023 } from "./en1992-1-1";
import { fibBasicLength, fibMeanLength } from "./fib-mc2010";
import { jsceLength } from "./jsce-1997";
import type { CodeDefinition } from "../model/definition";
import type { DevelopmentLengthRule } from "../model/development-length";

/** Every development length of the library. */
export const DEVELOPMENT_LENGTHS: readonly DevelopmentLengthRule[] = [
  aci318Length,
  aci318SimplifiedLength,
  aci318MetricLength,
  aci318MetricSimplifiedLength,
  aci440GuideLength,
  aci440CodeLength,
  csaS806Length,
  csaS6Length,
  aashtoGfrpLength,
  jsceLength,
  fibBasicLength,
  fibMeanLength,
  en1992Length2004,
  en1992Length2023,
];

/**
 * The development lengths of a code, in the order of their clauses; none for a code that states
 * none.
 */
export function developmentLengthsOf(code: CodeDefinition): readonly DevelopmentLengthRule[] {
  return DEVELOPMENT_LENGTHS.filter((rule) => rule.code.id === code.id);
}

/**
 * A development length by code and clause, or by the code alone where it has one only.
 * @throws Error listing what there is.
 * @example developmentLengthRule("csa-s806-12")
 * @example developmentLengthRule("aci318-19m/25.4.2.3")
 */
export function developmentLengthRule(id: string): DevelopmentLengthRule {
  const exact = DEVELOPMENT_LENGTHS.find((rule) => fullId(rule) === id);
  const ofCode = DEVELOPMENT_LENGTHS.filter(({ code }) => code.id === id);
  const found = exact ?? (ofCode.length === 1 ? ofCode[0] : undefined);
  if (!found)
    throw new Error(
      `No development length "${id}"${didYouMean(id, DEVELOPMENT_LENGTHS.map(fullId))}; expected one of ${DEVELOPMENT_LENGTHS.map(fullId).join(", ")}.`,
    );
  return found;
}

/** Both forms of an edition share the clause; the code tells them apart. */
function fullId({ code, definition }: DevelopmentLengthRule): string {
  return `${code.id}/${definition.id.slice(definition.id.indexOf("/") + 1)}`;
}
