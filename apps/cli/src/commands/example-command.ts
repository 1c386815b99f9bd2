import { EXAMPLES, writePlanText } from "@gantline/plan";
import { badUsage } from "../bad-input.ts";
import type { Arguments, Command, Finished } from "../command.ts";

export const exampleCommand: Command = {
  name: "example",
  summary: "list the example plans, or print one",
  help: `gantline example [KEY]

Without a key: lists the example plans. With one: prints that plan as a file. Everything in them is invented.

  gantline example crossing > plan.json
`,
  options: {},
  mostPositionals: 1,
  run: example,
};

function example({ positionals }: Arguments): Finished {
  const key = positionals[0];
  if (key === undefined)
    return { exitStatus: 0, output: EXAMPLES.map((e) => `${e.key.padEnd(12)}${e.title} (invented)\n`).join("") };
  const found = EXAMPLES.find((e) => e.key === key);
  if (!found) return badUsage("example", `There is no example "${key}": ${EXAMPLES.map((e) => e.key).join(", ")}.`);
  return { exitStatus: 0, output: writePlanText(found.plan) };
}
