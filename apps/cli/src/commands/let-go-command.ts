import { svgText, techniqueSheet } from "@gantline/drawing";
import {
  criticalPoints,
  LET_GO_LIMITS_TEXT,
  letGoAt,
  letGoChecks,
  letGoEvolution,
  linesOn,
  type Plan,
  roomiestMoment,
  type TechniqueRow,
  techniquePlan,
  techniques,
  techniquesCsv,
  type UnitSystem,
  type When,
} from "@gantline/plan";
import { badUsage, writeJson } from "../bad-input.ts";
import type { Arguments, Command, Finished } from "../command.ts";
import { openPlan } from "../open-plan.ts";
import { isReady, letGoReport, reportHead } from "../plan-report.ts";
import { printCase, printLetGo } from "../print-let-go.ts";
import { readMoment } from "../read-moment.ts";
import { readUnits, UNITS_HELP } from "../read-units.ts";
import { sheetCaptions } from "../sheet-captions.ts";

export const letGoCommand: Command = {
  name: "let-go",
  summary: "cut every line at every moment: peaks, what holds then, critical points",
  help: `gantline let-go PLAN|- [--stage N [--along P]] [--line ID] [--tip-gives] [--units metric|imperial] [--json | --csv | --svg]

Reads a plan, cuts every line at every moment of its stages, and prints each line's worst loss, the checks on what is left,
every part, anchor and pair of hands taken away in turn, the map over share and slack, and the techniques compared. With
--line one line only is cut, at one moment, and its motion told. A plan without stages is cut at its one position. Beside the
figures stands what the model does not have in it.

${UNITS_HELP}
  --stage N                 moment of critical points and techniques: stage, from 1; with most room to fall unless said
  --along P                 how far along that stage, in percent; 50 unless said
  --line ID                 cut only this line, at that stage: what holds, every figure, and how it ends; with --json its motion
  --tip-gives               the tip gives as the ladder's sections do, in every cut; takes some times as long. A stiff one unless said
  --json                    all of it and the techniques compared, in SI units, to the last digit
  --csv                     techniques side by side on this scene with this load, one row each (SI)
  --svg                     the same as a sheet of drawings

Exit status: 0 every check that counts is within or close, or with --csv or --svg the techniques are written, whatever they come
to; 1 a check is over or unknown, 2 the plan cannot be read.
`,
  options: {
    json: { type: "boolean" },
    csv: { type: "boolean" },
    svg: { type: "boolean" },
    line: { type: "string" },
    "tip-gives": { type: "boolean" },
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
  const forms = [values.json, values.csv, values.svg].filter((form) => form === true);
  if (forms.length > 1) return badUsage("let-go", "One of --json, --csv and --svg, not more.");
  if (values.line !== undefined && (values.csv === true || values.svg === true))
    return badUsage("let-go", "--line is for one line; --csv and --svg are of techniques.");
  const tipGives = values["tip-gives"] === true;
  const opened = await openPlan("let-go", given);
  if ("finished" in opened) return opened.finished;
  const { plan } = opened;
  const asked = readMoment(plan, values.stage, values.along);
  if (typeof asked === "string") return badUsage("let-go", asked);
  if (typeof values.line === "string")
    return tellLine(plan, values.line, asked, { json: values.json === true, tipGives }, system);
  const when = asked === undefined ? roomiestMoment(plan) : asked;
  if (values.csv === true || values.svg === true) {
    const rows = techniques(plan, when, { tipGives });
    return { exitStatus: 0, output: values.csv === true ? techniquesCsv(rows) : sheetOf(plan, when, rows, system) };
  }
  const found = letGoEvolution(plan, { tipGives });
  if (found === null) return { exitStatus: 1, complaint: "Cancelled.\n" };
  const exitStatus = isReady(found) ? 0 : 1;
  const points = criticalPoints(plan, when, { tipGives });
  const rows = techniques(plan, when, { tipGives });
  if (values.json === true) return { exitStatus, output: writeJson(letGoReport(plan, found, when, points, rows)) };
  return { exitStatus, output: printLetGo(plan, found, when, points, rows, system) };
}

/** The techniques as one sheet of drawings. */
function sheetOf(plan: Plan, when: When | null, rows: readonly TechniqueRow[], system: UnitSystem): string {
  const variants = rows.map((row) => ({ row, plan: techniquePlan(plan, when, row) }));
  const captions = [LET_GO_LIMITS_TEXT, ...sheetCaptions(plan, SHEET_PX)];
  return svgText(techniqueSheet(variants, { widthPx: SHEET_PX, system, name: plan.name, captions }));
}

const SHEET_PX = 1100;

/** One line at one moment. */
function tellLine(
  plan: Plan,
  line: string,
  asked: When | undefined,
  { json, tipGives }: { readonly json: boolean; readonly tipGives: boolean },
  system: UnitSystem,
): Finished {
  const ids = linesOn(plan).map(({ id }) => id);
  if (!ids.includes(line)) return badUsage("let-go", `There is no line "${line}": ${ids.join(", ")}.`);
  if (asked === undefined && plan.evolution.stages.length > 0)
    return badUsage("let-go", "Say at which stage with --stage.");
  const one = letGoAt(plan, asked ?? null, line, { replay: true, tipGives });
  const ledger = letGoChecks(plan, [one]);
  return {
    exitStatus: isReady({ ledger }) ? 0 : 1,
    output: json ? writeJson({ ...reportHead(plan), ...one, ledger }) : printCase(plan, line, one, ledger, system),
  };
}
