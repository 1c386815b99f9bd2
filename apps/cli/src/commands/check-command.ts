import { evaluate, evolve } from "@gantline/plan";
import { badUsage, writeJson } from "../bad-input.ts";
import type { Arguments, Command, Finished } from "../command.ts";
import { openPlan } from "../open-plan.ts";
import { isReady, planReport } from "../plan-report.ts";
import { printLedger } from "../print-ledger.ts";
import { readUnits, UNITS_HELP } from "../read-units.ts";

export const checkCommand: Command = {
  name: "check",
  summary: "judge a plan: every check, worst first",
  help: `gantline check PLAN|- [--why] [--units metric|imperial] [--json]

Reads a plan, works it out and prints its ledger, worst first. Of a plan with stages every check at its worst moment of all of
them; then the one position that the rig names, which is no moment of the stages.

  --why                     with each check: formula, numbers put in, where the limit comes from
${UNITS_HELP}
  --json                    everything that was worked out, in SI units, to the last digit

Exit status: 0 every check that counts is within or close; 1 one is over or unknown; 2 the plan cannot be read.
`,
  options: { json: { type: "boolean" }, why: { type: "boolean" }, units: { type: "string" } },
  mostPositionals: 1,
  run: check,
};

async function check(given: Arguments): Promise<Finished> {
  const system = readUnits(given.values.units);
  if (system === null) return badUsage("check", `There are no units "${given.values.units}": metric or imperial.`);
  const opened = await openPlan("check", given);
  if ("finished" in opened) return opened.finished;
  const evaluation = evaluate(opened.plan);
  const evolution = opened.plan.evolution.stages.length > 0 ? evolve(opened.plan) : null;
  const output =
    given.values.json === true
      ? writeJson(planReport(opened.plan, evaluation, evolution))
      : printLedger(opened.plan, evaluation, evolution, { system, why: given.values.why === true });
  return { exitStatus: isReady(evaluation) && (evolution === null || isReady(evolution)) ? 0 : 1, output };
}
