import { writeFileSync } from "node:fs";
import {
  drawPlan,
  drawSection,
  type SvgNode,
  stageAndPercent,
  storyboardSheet,
  svgSheet,
  svgText,
  sweptStages,
} from "@gantline/drawing";
import { evaluate, evaluateAt, evolve, momentPlan, type Plan, type UnitSystem, type When } from "@gantline/plan";
import { badUsage, notDone, writeJson } from "../bad-input.ts";
import type { Arguments, Command, Finished } from "../command.ts";
import { openPlan } from "../open-plan.ts";
import { reportHead } from "../plan-report.ts";
import { reasonOf } from "../read-input.ts";
import { readMoment } from "../read-moment.ts";
import { readUnits, UNITS_HELP } from "../read-units.ts";
import { sheetCaptions } from "../sheet-captions.ts";

const WIDTH_PX = 1400;
const HEIGHT_PX = 1000;
const LEAST_PX = 200;
const MOST_PX = 20_000;

export const drawCommand: Command = {
  name: "draw",
  summary: "draw a plan to scale, as SVG",
  help: `gantline draw PLAN|- [--view section|plan|storyboard] [--stage N [--along P]] [--swept] [--out FILE] [--width PX] [--height PX] [--night] [--units metric|imperial] [--json]

Draws the section along the ladder, the plan of the site, or the storyboard of a plan with stages: each stage at its worst
moment with its critical numbers, and the curve of the worst ratio.

  --view VIEW               section (unless said), plan or storyboard
  --stage N                 section and plan: the moment that is drawn, in this stage, from 1; the one position the rig names
                            unless said
  --along P                 how far along that stage, in percent; 50 unless said
  --swept                   section and plan: the space that load and ropes take up over that stage, or over all, under it
  --out FILE                write to a file, not to standard output
  --width, --height PX      size of the sheet; ${WIDTH_PX} by ${HEIGHT_PX} unless said; a storyboard is as high as it needs to be
  --night                   pale on dark
${UNITS_HELP}
  --json                    JSON with the SVG in it, or with the file it was written to

Exit status: 0 drawn; 2 the plan cannot be read or has no stages to draw, or the file cannot be written.
`,
  options: {
    view: { type: "string" },
    stage: { type: "string" },
    along: { type: "string" },
    swept: { type: "boolean" },
    out: { type: "string" },
    width: { type: "string" },
    height: { type: "string" },
    night: { type: "boolean" },
    units: { type: "string" },
    json: { type: "boolean" },
  },
  mostPositionals: 1,
  run: draw,
};

async function draw(given: Arguments): Promise<Finished> {
  const { values } = given;
  const system = readUnits(values.units);
  if (system === null) return badUsage("draw", `There are no units "${values.units}": metric or imperial.`);
  const view = values.view ?? "section";
  if (view !== "section" && view !== "plan" && view !== "storyboard")
    return badUsage("draw", `There is no view "${view}": section, plan or storyboard.`);
  if (view === "storyboard" && values.height !== undefined)
    return badUsage("draw", "A storyboard is as high as it needs to be: leave out --height.");
  const swept = values.swept === true;
  if (view === "storyboard" && (swept || values.stage !== undefined || values.along !== undefined))
    return badUsage(
      "draw",
      "A storyboard shows every stage at its worst moment: leave out --stage, --along and --swept.",
    );
  const widthPx = readPixels(values.width, WIDTH_PX);
  const heightPx = readPixels(values.height, HEIGHT_PX);
  if (widthPx === null || heightPx === null)
    return badUsage("draw", `Width and height are whole numbers of pixels from ${LEAST_PX} to ${MOST_PX}.`);
  const opened = await openPlan("draw", given);
  if ("finished" in opened) return opened.finished;

  const { plan } = opened;
  const json = values.json === true;
  if (plan.evolution.stages.length === 0 && (view === "storyboard" || swept)) {
    const what = view === "storyboard" ? "storyboard" : "swept space";
    return notDone("no-stages", "evolution.stages", `This plan has no stages: there is no ${what} to draw.`, json);
  }
  const when = readMoment(plan, values.stage, values.along);
  if (typeof when === "string") return badUsage("draw", when);
  const theme = values.night === true ? "night" : "day";
  const svg = svgText(sheetOf(plan, { view, when, swept, widthPx, heightPx, system, theme }));
  const report = (of: object) => writeJson({ ...reportHead(plan), view, moment: when ?? null, ...of });
  const out = values.out;
  if (typeof out !== "string") return { exitStatus: 0, output: json ? report({ svg }) : svg };
  try {
    writeFileSync(out, svg);
    return { exitStatus: 0, ...(json ? { output: report({ file: out }) } : {}) };
  } catch (error) {
    return notDone("not-written", out, `"${out}" cannot be written: ${reasonOf(error)}.`, json);
  }
}

interface Sheet {
  readonly view: "section" | "plan" | "storyboard";
  /** The moment that is drawn; left out: the one position the rig names. */
  readonly when: When | undefined;
  readonly swept: boolean;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly system: UnitSystem;
  readonly theme: "day" | "night";
}

/** The drawing on its sheet, with the caution and what is invented at the foot. */
function sheetOf(plan: Plan, { view, when, swept, ...options }: Sheet): SvgNode {
  const captions = sheetCaptions(plan, options.widthPx);
  if (view === "storyboard") return storyboardSheet(plan, evolve(plan), { ...options, captions });
  const draw = view === "section" ? drawSection : drawPlan;
  const [then, evaluation] = when
    ? [momentPlan(plan, when), evaluateAt(plan, when)]
    : ([plan, evaluate(plan)] as const);
  const drawing = draw(then, evaluation, {
    ...options,
    ...(when && { evolution: when }),
    swept: swept ? sweptStages(plan, evolve(plan)).filter((s) => !when || s.stage === when.stage) : [],
  });
  const name = when && plan.evolution.stages[when.stage]?.name;
  const heading = when ? `${plan.name}, ${stageAndPercent(when)}: ${name}` : plan.name;
  return svgSheet(drawing, { ...options, heading, captions });
}

/** Pixels as given; null where they are not a whole number within bounds. */
function readPixels(given: string | boolean | undefined, unsaid: number): number | null {
  if (given === undefined) return unsaid;
  const px = Number(given);
  return Number.isInteger(px) && px >= LEAST_PX && px <= MOST_PX ? px : null;
}
