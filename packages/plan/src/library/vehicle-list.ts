import type { Device } from "../schema/aerial.ts";
import type { Plan } from "../schema/plan.ts";
import { EXAMPLE_DEVICES } from "./devices.ts";

/** Of those with one id the first, in order. */
export const firstOfEachId = <T extends { readonly id: string }>(all: readonly T[]): readonly T[] => {
  const seen = new Set<string>();
  return all.filter(({ id }) => !seen.has(id) && seen.add(id));
};

/**
 * Which vehicles can be tried for a plan? Its own first, then those of the department, then the examples; of one id the first.
 *
 * @param others those of the department's other plans
 */
export const vehiclesOf = ({ aerial }: Plan, others: readonly Device[]): readonly Device[] =>
  firstOfEachId([aerial.device, ...others, ...EXAMPLE_DEVICES]);
