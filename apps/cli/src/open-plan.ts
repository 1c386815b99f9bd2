import { type Plan, readPlanText } from "@gantline/plan";
import { badInput, badUsage, nothingRead } from "./bad-input.ts";
import type { Arguments, Finished } from "./command.ts";
import { readInput } from "./read-input.ts";

/** The plan a command is asked about, or how the command ends without one. */
export async function openPlan(
  command: string,
  { positionals, values }: Arguments,
): Promise<{ readonly plan: Plan } | { readonly finished: Finished }> {
  const file = positionals[0];
  if (file === undefined) return { finished: badUsage(command, "Name a plan file, or - for standard input.") };
  const json = values.json === true;
  const input = await readInput(file);
  if (!input.ok) return { finished: nothingRead(input.sentence, "(file)", "a plan", json) };
  const read = readPlanText(input.text);
  return read.ok ? { plan: read.plan } : { finished: badInput(read.problems, json) };
}
