import { requireOffered, type CodeDefinition } from "./definition";

/**
 * A code with other values of its options, for whatever computes by the code's own values: a
 * proposal, a reliability, a packet. A value stated in the settings of a prediction comes before.
 * @param values lengths in mm, stresses in MPa, else dimensionless
 * @throws Error for an option that the code does not offer, naming the nearest
 * @example withOptions(code("aci318-19"), { supplementary_reinforcement: 1 })
 */
export function withOptions(
  code: CodeDefinition,
  values: Readonly<Record<string, number>>,
): CodeDefinition {
  requireOffered(code, Object.keys(values));
  const options = Object.entries(code.options).map(
    ([name, option]) =>
      [name, Object.hasOwn(values, name) ? { ...option, value: values[name]! } : option] as const,
  );
  return Object.keys(values).length === 0
    ? code
    : { ...code, options: Object.fromEntries(options) };
}
