import type { CodeDefinition, ProvisionDefinition } from "./definition";
import { setupAllows } from "./setup-modes";
import type { TestedBy } from "./tested-by-rule";

/** Provisions of bonded anchors. */
export const BONDED_ANCHORS: TestedBy = {
  setups: ["unconfined_tension", "direct_shear"],
  installations: ["post_installed"],
  because:
    "The provisions for anchors are tested by bars bonded into drilled holes, with supports that do not restrain concrete failure. " +
    "A confining support increases the bond stress and suppresses the cone, so a confined test is used for bond only with a stated confinedBondFactor. " +
    "A bond specimen has neither the free surface nor the edges of an anchor. A straight cast-in bar has no head and follows the development-length rules.",
};

/** Provisions of anchors in general, which hold for cast-in heads as well. */
export const ANCHORS_AND_HEADS: TestedBy = {
  ...BONDED_ANCHORS,
  installations: ["post_installed", "headed_cast_in"],
  because: `${BONDED_ANCHORS.because} A cast-in bar is used if option headed_cast_in states a head. Bar strength is also judged by such tests, because rupture in another set-up is a test of the bar material.`,
};

/** Provisions of cast-in heads and hooks. */
export const CAST_IN_HEADS: TestedBy = {
  setups: ["unconfined_tension"],
  installations: ["cast_in"],
  because:
    "The bearing of a cast-in head or hook is tested in tension without a confining support; options state the head or hook.",
};

/** Development-length and splice provisions. */
export const DEVELOPED_BARS: TestedBy = {
  setups: ["beam_end", "hinged_beam", "splice"],
  installations: ["cast_in"],
  because:
    "The clause is based on beam-type tests of cast-in bars, with the concrete around the bar in tension. " +
    "A pull-out block bears on its loaded face, which compresses that concrete and restrains splitting (as committee reports on bond state; from memory), so it does not test a development length. " +
    'The clause does not cover bars bonded into drilled holes. Scope "all" shows all of these tests.',
};

/** Local bond stress over a short length. */
export const SHORT_BOND_LENGTHS: TestedBy = {
  setups: ["pullout_block", "beam_end", "hinged_beam"],
  installations: ["cast_in"],
  because:
    "The local bond stress was fitted to tests with short bonded lengths of cast-in bars, including pull-out blocks.",
};

/** The tests by which a provision is judged: its own statement, else that of its code. */
export function testedByOf(
  code: Pick<CodeDefinition, "testedBy">,
  provision: ProvisionDefinition,
): TestedBy {
  return provision.testedBy ?? code.testedBy;
}

/**
 * Why a test in that set-up and installation does not test a provision; null where it does.
 * @param confinedCounts whether a confined test counts for bond, because a factor on it was stated
 */
export function whyNotTested(
  tested: TestedBy,
  provision: ProvisionDefinition,
  setup: string | null,
  installation: string | null,
  headed: boolean,
  confinedCounts: boolean,
): string | null {
  const confined =
    setup === "confined_tension" &&
    confinedCounts &&
    provision.modes.includes("bond") &&
    tested.setups.includes("unconfined_tension");
  if (!confined && !(tested.setups as readonly (string | null)[]).includes(setup)) {
    const setups = tested.setups.filter((one) =>
      provision.modes.some((mode) => setupAllows(one, mode)),
    );
    return `tested by ${setups
      .map(words)
      .join(", ")
      .replace(
        /, ([^,]*)$/,
        " or $1",
      )} tests, not by ${setup === null ? "an unstated set-up" : `${words(setup)} tests`}`;
  }
  const counts = tested.installations.some(
    (one) =>
      one === installation || (one === "headed_cast_in" && installation === "cast_in" && headed),
  );
  return counts
    ? null
    : `tested by ${tested.installations.map(words).join(" or ")} bars, not by ${installation === null ? "an unstated installation" : installation === "cast_in" && tested.installations.includes("headed_cast_in") ? "straight cast in bars" : `${words(installation)} bars`}`;
}

function words(name: string): string {
  return name.replaceAll("_", " ");
}
