import { Option, type Command } from "commander";
import { BAR_MATERIALS, BAR_SURFACES } from "../../dataset";
import { BAR_SIZES, PARAPET_BAR, type DesignedBar } from "../../provisions";
import { absent } from "../use/help";
import { InvalidInput, invalidOption, listed, oneOf, positiveNumber } from "../use/invalid-input";

/** What the bar's options hold before they are read. */
export interface DesignedBarOptions {
  readonly bar: string;
  readonly surface: string;
  readonly size: string;
  readonly strength: string;
  readonly yield?: string;
  readonly concrete: string;
  readonly uncracked: boolean;
  readonly edge: string;
  readonly bond: string;
  readonly bondUncracked: string;
}

/** Declares the options of a designed bar; the defaults are the invented case of the library. */
export function designedBarOptions(command: Command): Command {
  const { material, surface, strength, concrete, edge, bond, uncrackedBond } = PARAPET_BAR;
  return command
    .option("--bar <material>", "bar material, as bar_material in tests.csv", material)
    .option("--surface <surface>", "bar surface, as bar_surface in tests.csv", surface)
    .option("--size <size>", 'bar size, e.g. M16 or "No. 5"; or its diameter in mm', "M16")
    .option(
      "--strength <MPa>",
      "specified (guaranteed) tensile strength of the bar",
      String(strength),
    )
    .addOption(
      absent(new Option("--yield <MPa>", "specified yield strength of a steel bar"), "none"),
    )
    .option("--concrete <MPa>", "cylinder strength of the concrete", String(concrete))
    .option("--uncracked", "uncracked concrete, otherwise cracked", false)
    .option(
      "--edge <mm>",
      "distance from the bar's axis to the nearest edge; cover is this less half a diameter",
      String(edge),
    )
    .option(
      "--bond <MPa>",
      "characteristic bond stress of the adhesive in this concrete",
      String(bond),
    )
    .option(
      "--bond-uncracked <MPa>",
      "characteristic bond stress of the adhesive in uncracked concrete",
      String(uncrackedBond),
    );
}

/** The bar named by the options. @throws InvalidInput */
export function designedBarNamed(options: DesignedBarOptions): DesignedBar {
  const { diameter, area } = sizeNamed(options.size);
  const edge = positiveNumber("edge", options.edge);
  if (edge <= diameter / 2)
    throw new InvalidInput(
      `Invalid --edge "${options.edge}": no cover on a bar of ${String(diameter)} mm. Use more than half a diameter.`,
    );
  return {
    material: oneOf("bar", options.bar, BAR_MATERIALS),
    surface: oneOf("surface", options.surface, BAR_SURFACES),
    diameter,
    ...(area === undefined ? {} : { area }),
    strength: positiveNumber("strength", options.strength),
    ...(options.yield === undefined
      ? {}
      : { yieldStrength: positiveNumber("yield", options.yield) }),
    concrete: positiveNumber("concrete", options.concrete),
    cracked: !options.uncracked,
    edge,
    bond: positiveNumber("bond", options.bond),
    uncrackedBond: positiveNumber("bond-uncracked", options.bondUncracked),
  };
}

function sizeNamed(size: string): { readonly diameter: number; readonly area?: number } {
  const families = BAR_SIZES.filter(({ system }) => system === "us" || system === "us_metric");
  const found = families.find(({ designation }) => designation === size);
  if (found) return { diameter: found.diameter_mm, area: found.area_mm2 };
  if (Number(size) > 0) return { diameter: positiveNumber("size", size) };
  const known = families.map(({ designation }) => designation);
  throw invalidOption("size", size, `a diameter in mm or ${listed(known)}`, known);
}
