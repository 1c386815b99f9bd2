import { answerNetworks, readNetworks, solveNetwork } from "@gantline/engine";
import { repeatedNames } from "@gantline/plan";
import { badInput, badUsage, nothingRead, writeJson } from "../bad-input.ts";
import type { Arguments, Command, Finished } from "../command.ts";
import { readInput } from "../read-input.ts";

export const solveCommand: Command = {
  name: "solve",
  summary: "find the balance of a rope network, or of a list of them",
  help: `gantline solve FILE|- [--json]

Reads a rope network (JSON, SI units), or a list of networks, and prints where the free nodes come to rest, the tension
of every rope segment, and what the ropes do to the fixed nodes. A list is answered by a list, in order.
The form of the input: gantline schema --network

  --json   changes nothing: what is printed is JSON in any case

Exit status: 0 solved; 1 a network has no answer (the reason is printed in its place); 2 the input cannot be used (one reason is
printed for all of it, with the path of the field).
`,
  options: { json: { type: "boolean" } },
  mostPositionals: 1,
  run: solve,
};

async function solve({ positionals }: Arguments): Promise<Finished> {
  const file = positionals[0];
  if (file === undefined) return badUsage("solve", "Name a file with a rope network, or - for standard input.");
  const input = await readInput(file);
  if (!input.ok) return nothingRead(input.sentence, "(whole input)", "a rope network", true);
  let parsed: unknown;
  try {
    parsed = JSON.parse(input.text);
  } catch (error) {
    return badInput(
      [
        {
          path: "(whole input)",
          got: "text that is not JSON",
          expected: `JSON (${error instanceof Error ? error.message : "not readable"})`,
        },
      ],
      true,
    );
  }
  const read = readNetworks(parsed);
  const problems = [...repeatedNames(input.text), ...(read.ok ? [] : read.problems)];
  if (!read.ok || problems.length > 0) return badInput(problems, true);
  const { output, exitStatus } = answerNetworks(
    read.networks.map((network) => solveNetwork(network)),
    read.many,
  );
  return { exitStatus, output: writeJson(output) };
}
