import { evolve } from "@gantline/plan";
import { badUsage, writeJson } from "../bad-input.ts";
import type { Arguments, Command, Finished } from "../command.ts";
import { openPlan } from "../open-plan.ts";
import { evolutionReport, isReady } from "../plan-report.ts";
import { evolutionCsv, printEvolution } from "../print-evolution.ts";
import { readUnits, UNITS_HELP } from "../read-units.ts";

export const evolveCommand: Command = {
  name: "evolve",
  summary: "sweep a plan's stages from ground to ground: every check at its worst moment",
  help: `gantline evolve PLAN|- [--units metric|imperial] [--json | --csv]

Reads a plan with stages, solves every stage along its way and prints each stage and each check at its worst moment.

${UNITS_HELP}
  --json                    the whole evolution, in SI units, to the last digit
  --csv                     one row a moment: place, status, worst check, and every figure and ratio as a column (SI)

Exit status: 0 every check that counts is within or close at every moment; 1 one is over or unknown, or there are no stages;
2 the plan cannot be read.
`,
  options: { json: { type: "boolean" }, csv: { type: "boolean" }, units: { type: "string" } },
  mostPositionals: 1,
  run: sweep,
};

async function sweep(given: Arguments): Promise<Finished> {
  const system = readUnits(given.values.units);
  if (system === null) return badUsage("evolve", `There are no units "${given.values.units}": metric or imperial.`);
  if (given.values.json === true && given.values.csv === true)
    return badUsage("evolve", "Either --json or --csv, not both.");
  const opened = await openPlan("evolve", given);
  if ("finished" in opened) return opened.finished;
  const evolution = evolve(opened.plan);
  const exitStatus = isReady(evolution) ? 0 : 1;
  if (given.values.json === true) return { exitStatus, output: writeJson(evolutionReport(opened.plan, evolution)) };
  if (given.values.csv === true) return { exitStatus, output: evolutionCsv(evolution) };
  return { exitStatus, output: printEvolution(opened.plan, evolution, system) };
}
