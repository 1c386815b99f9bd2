import { EXAMPLES, writePlanText } from "@gantline/plan";
import { badUsage, writeJson } from "../bad-input.ts";
import type { Arguments, Command, Finished } from "../command.ts";

export const exampleCommand: Command = {
  name: "example",
  summary: "list the example plans, or print one",
  help: `gantline example [KEY] [--json]

Without a key: lists the example plans. With one: prints that plan as a file. Everything in them is invented.

  gantline example crossing > plan.json

  --json   the list as JSON; a plan is JSON in any case
`,
  options: { json: { type: "boolean" } },
  mostPositionals: 1,
  run: example,
};

function example({ positionals, values }: Arguments): Finished {
  const key = positionals[0];
  if (key === undefined && values.json === true)
    return { exitStatus: 0, output: writeJson(EXAMPLES.map(({ key, title }) => ({ key, title, example: true }))) };
  if (key === undefined)
    return { exitStatus: 0, output: EXAMPLES.map((e) => `${e.key.padEnd(12)}${e.title} (invented)\n`).join("") };
  const found = EXAMPLES.find((e) => e.key === key);
  if (!found) return badUsage("example", `There is no example "${key}": ${EXAMPLES.map((e) => e.key).join(", ")}.`);
  return { exitStatus: 0, output: writePlanText(found.plan) };
}
