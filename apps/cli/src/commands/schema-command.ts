import { planJsonSchema } from "@gantline/plan";
import { writeJson } from "../bad-input.ts";
import type { Command } from "../command.ts";
import { networkJsonSchema } from "../network-json-schema.ts";

export const schemaCommand: Command = {
  name: "schema",
  summary: "print the JSON Schema of a plan file",
  help: `gantline schema [--network] [--json]

Prints the JSON Schema (draft 2020-12) of a plan file.

  --network   of what \`gantline solve\` reads instead
  --json      changes nothing: a schema is JSON
`,
  options: { network: { type: "boolean" }, json: { type: "boolean" } },
  mostPositionals: 0,
  run: ({ values }) => ({
    exitStatus: 0,
    output: writeJson(values.network === true ? networkJsonSchema() : planJsonSchema()),
  }),
};
