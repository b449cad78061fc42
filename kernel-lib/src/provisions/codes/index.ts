import { didYouMean } from "../../dataset";
import { aashtoGfrp } from "./aashto-gfrp2-2018";
import { aci318, aci318Metric } from "./aci318-19";
import { aci408 } from "./aci408r-03";
import { aci440Code } from "./aci440.11-22";
import { aci440Guide } from "./aci440.1r-15";
import { ccd, ccdCube } from "./ccd-1995";
import { combinedConeBond } from "./combined-cone-bond";
import { coneBond1993 } from "./cone-bond-1993";
import { csaS6 } from "./csa-s6-14";
import { csaS806 } from "./csa-s806-12";
import { dowel1986 } from "./dowel-1986";
import { edgeShear2005 } from "./edge-shear-2005";
import { en1992Bars2004, en1992Bars2023 } from "./en1992-1-1";
import { en1992Fastenings } from "./en1992-4-2018";
import { eotaTr069 } from "./eota-tr069-2019";
import { fibModelCode } from "./fib-mc2010";
import { jsce } from "./jsce-1997";
import type { CodeDefinition } from "../model/definition";
import { orangun } from "./orangun-1977";
import { pryout1995 } from "./pryout-1995";
import { uniformBondModel } from "./uniform-bond-1998";
import { uniformBond2006 } from "./uniform-bond-2006";
import { wambekeShield } from "./wambeke-shield-2006";

/** Every code and model of the library. */
export const CODES: readonly CodeDefinition[] = [
  aci318,
  aci318Metric,
  aci440Guide,
  ccd,
  ccdCube,
  en1992Fastenings,
  en1992Bars2004,
  en1992Bars2023,
  aci440Code,
  csaS806,
  csaS6,
  aashtoGfrp,
  jsce,
  fibModelCode,
  eotaTr069,
  uniformBondModel,
  uniformBond2006,
  coneBond1993,
  combinedConeBond,
  edgeShear2005,
  pryout1995,
  dowel1986,
  wambekeShield,
  orangun,
  aci408,
];

/**
 * A code by its id.
 * @throws Error listing the ids there are.
 * @example code("aci318-19")
 */
export function code(id: string): CodeDefinition {
  const found = CODES.find((candidate) => candidate.id === id);
  const ids = CODES.map((candidate) => candidate.id);
  if (!found)
    throw new Error(`No code "${id}"${didYouMean(id, ids)}; expected one of ${ids.join(", ")}.`);
  return found;
}
