import {
  criticalPoints,
  type LetGoEvolution,
  letGoEvolution,
  type Plan,
  techniques,
  techniquesCsv,
  type When,
} from "@gantline/plan";
import { badUsage, writeJson } from "../bad-input.ts";
import type { Arguments, Command, Finished } from "../command.ts";
import { openPlan } from "../open-plan.ts";
import { isReady, letGoReport } from "../plan-report.ts";
import { printLetGo } from "../print-let-go.ts";
import { readUnits, UNITS_HELP } from "../read-units.ts";

export const letGoCommand: Command = {
  name: "let-go",
  summary: "cut every line at every moment: peaks, what holds then, critical points",
  help: `gantline let-go PLAN|- [--stage N [--along P]] [--units metric|imperial] [--json | --csv]

Reads a plan, cuts every line at every moment of its stages, and prints each line's worst loss, the checks on what is left,
and every part, anchor and pair of hands taken away in turn. A plan without stages is cut at its one position. Beside the
figures stands what the model does not have in it.

${UNITS_HELP}
  --stage N                 moment of critical points and techniques: stage, from 1; where the load hangs highest unless said
  --along P                 how far along that stage, in percent; 50 unless said
  --json                    all of it and the techniques compared, in SI units, to the last digit
  --csv                     techniques side by side on this scene with this load, one row each (SI)

Exit status: 0 every check that counts is within or close; 1 one is over or unknown; 2 the plan cannot be read.
`,
  options: {
    json: { type: "boolean" },
    csv: { type: "boolean" },
    units: { type: "string" },
    stage: { type: "string" },
    along: { type: "string" },
  },
  mostPositionals: 1,
  run: tell,
};

async function tell(given: Arguments): Promise<Finished> {
  const { values } = given;
  const system = readUnits(values.units);
  if (system === null) return badUsage("let-go", `There are no units "${values.units}": metric or imperial.`);
  if (values.json === true && values.csv === true) return badUsage("let-go", "Either --json or --csv, not both.");
  const opened = await openPlan("let-go", given);
  if ("finished" in opened) return opened.finished;
  const { plan } = opened;
  const asked = momentAsked(plan, values.stage, values.along);
  if (typeof asked === "string") return badUsage("let-go", asked);
  const found = letGoEvolution(plan);
  if (found === null) return { exitStatus: 1, complaint: "Cancelled.\n" };
  const when = asked === undefined ? highestMoment(found) : asked;
  const exitStatus = isReady(found) ? 0 : 1;
  if (values.csv === true) return { exitStatus, output: techniquesCsv(techniques(plan, when)) };
  const points = criticalPoints(plan, when);
  if (values.json === true)
    return { exitStatus, output: writeJson(letGoReport(plan, found, when, points, techniques(plan, when))) };
  return { exitStatus, output: printLetGo(plan, found, when, points, system) };
}

/** The moment asked for; undefined where none is, a sentence where there is no such moment. */
function momentAsked(
  plan: Plan,
  stage: string | boolean | undefined,
  along: string | boolean | undefined,
): When | undefined | string {
  if (stage === undefined) return along === undefined ? undefined : "Say which stage with --stage.";
  const number = Number(stage);
  const percent = along === undefined ? 50 : Number(along);
  if (!Number.isInteger(number) || number < 1 || number > plan.evolution.stages.length)
    return `There is no stage "${stage}": 1 to ${plan.evolution.stages.length}.`;
  return percent >= 0 && percent <= 100
    ? { stage: number - 1, along: percent / 100 }
    : `"${along}" is no percentage from 0 to 100.`;
}

/** The moment of the map of shares: where the load hangs highest. null: the plan's one position. */
const highestMoment = ({ map, worst }: LetGoEvolution): When | null => map?.when ?? worst[0]?.worst.when ?? null;
