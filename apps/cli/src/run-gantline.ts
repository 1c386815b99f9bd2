import { parseArgs } from "node:util";
import { CAUTION } from "@gantline/plan";
import manifest from "../package.json" with { type: "json" };
import { badUsage } from "./bad-input.ts";
import type { Command, Finished } from "./command.ts";
import { checkCommand } from "./commands/check-command.ts";
import { drawCommand } from "./commands/draw-command.ts";
import { evolveCommand } from "./commands/evolve-command.ts";
import { exampleCommand } from "./commands/example-command.ts";
import { letGoCommand } from "./commands/let-go-command.ts";
import { schemaCommand } from "./commands/schema-command.ts";
import { solveCommand } from "./commands/solve-command.ts";
import { standCommand } from "./commands/stand-command.ts";

const COMMANDS: readonly Command[] = [
  checkCommand,
  evolveCommand,
  standCommand,
  letGoCommand,
  drawCommand,
  solveCommand,
  exampleCommand,
  schemaCommand,
];

const HELP = `gantline COMMAND …

Plans rope rescue with an aerial ladder as the high point.

${COMMANDS.map((c) => `  ${c.name.padEnd(10)}${c.summary}`).join("\n")}

  --help    this, or after a command what it takes
  --version

${CAUTION}
`;

/** Runs one command with its arguments. Reads and writes files it is told to; prints nothing itself. */
export async function runGantline(args: readonly string[]): Promise<Finished> {
  const [first, ...rest] = args;
  if (first === undefined) return { exitStatus: 2, complaint: HELP };
  if (first === "--help" || first === "-h") return { exitStatus: 0, output: HELP };
  if (first === "--version") return { exitStatus: 0, output: `${manifest.version}\n` };
  const command = COMMANDS.find((c) => c.name === first);
  if (!command) {
    const kind = first.startsWith("-") ? "option" : "command";
    return badUsage("", `There is no ${kind} "${first}". Commands: ${COMMANDS.map((c) => c.name).join(", ")}.`);
  }
  return runCommand(command, rest);
}

async function runCommand(command: Command, args: readonly string[]): Promise<Finished> {
  const { name, help, mostPositionals, run } = command;
  const parsed = parse(command, args);
  if ("sentence" in parsed) return badUsage(name, parsed.sentence);
  const { positionals, values } = parsed;
  if (values.help === true) return { exitStatus: 0, output: help };
  const surplus = positionals[mostPositionals];
  if (surplus !== undefined) return badUsage(name, `"${surplus}" is one argument too many.`);
  return run({ positionals, values });
}

function parse({ options }: Command, args: readonly string[]) {
  try {
    const { positionals, values } = parseArgs({
      args: [...args],
      options: { ...options, help: { type: "boolean", short: "h" } },
      allowPositionals: true,
      strict: true,
    });
    return { positionals, values: values as Readonly<Record<string, string | boolean | undefined>> };
  } catch (error) {
    return { sentence: plain(error) };
  }
}

/** What the parser found wrong, as a plain sentence. */
function plain(error: unknown): string {
  const said = error instanceof Error ? error.message : "";
  const unknown = /^Unknown option '([^']+)'/.exec(said);
  if (unknown) return `There is no option ${unknown[1]}.`;
  const first = said.split(/[.\n]/, 1)[0] ?? "";
  return first === "" ? "The arguments cannot be read." : `${first}.`;
}
