import { writeFileSync } from "node:fs";
import { drawPlan, drawSection, svgSheet, svgText } from "@gantline/drawing";
import { evaluate } from "@gantline/plan";
import { badUsage } from "../bad-input.ts";
import { CAUTION, exampleLine } from "../caution.ts";
import type { Arguments, Command, Finished } from "../command.ts";
import { openPlan } from "../open-plan.ts";
import { reasonOf } from "../read-input.ts";
import { readUnits, UNITS_HELP } from "../read-units.ts";

const WIDTH_PX = 1400;
const HEIGHT_PX = 1000;
const LEAST_PX = 200;
const MOST_PX = 20_000;

export const drawCommand: Command = {
  name: "draw",
  summary: "draw a plan to scale, as SVG",
  help: `gantline draw PLAN|- [--view section|plan] [--out FILE] [--width PX] [--height PX] [--night] [--units metric|imperial]

Draws the section along the ladder, or the plan of the site.

  --view section|plan       which drawing; the section unless said
  --out FILE                write to a file, not to standard output
  --width, --height PX      size of the sheet; ${WIDTH_PX} by ${HEIGHT_PX} unless said
  --night                   pale on dark
${UNITS_HELP}

Exit status: 0 drawn; 2 the plan cannot be read, or the file not written.
`,
  options: {
    view: { type: "string" },
    out: { type: "string" },
    width: { type: "string" },
    height: { type: "string" },
    night: { type: "boolean" },
    units: { type: "string" },
  },
  mostPositionals: 1,
  run: draw,
};

async function draw(given: Arguments): Promise<Finished> {
  const { values } = given;
  const system = readUnits(values.units);
  if (system === null) return badUsage("draw", `There are no units "${values.units}": metric or imperial.`);
  const view = values.view ?? "section";
  if (view !== "section" && view !== "plan") return badUsage("draw", `There is no view "${view}": section or plan.`);
  const widthPx = readPixels(values.width, WIDTH_PX);
  const heightPx = readPixels(values.height, HEIGHT_PX);
  if (widthPx === null || heightPx === null)
    return badUsage("draw", `Width and height are whole numbers of pixels from ${LEAST_PX} to ${MOST_PX}.`);
  const opened = await openPlan("draw", given);
  if ("finished" in opened) return opened.finished;

  const { plan } = opened;
  const evaluation = evaluate(plan);
  const drawing =
    view === "section" ? drawSection(plan, evaluation, { system }) : drawPlan(plan, evaluation, { system });
  const example = exampleLine(plan);
  const sheet = svgSheet(drawing, {
    widthPx,
    heightPx,
    system,
    heading: plan.name,
    captions: [...(example === null ? [] : [example]), ...captionLines(CAUTION, widthPx)],
    theme: values.night === true ? "night" : "day",
  });
  const output = svgText(sheet);
  const out = values.out;
  if (typeof out !== "string") return { exitStatus: 0, output };
  try {
    writeFileSync(out, output);
    return { exitStatus: 0 };
  } catch (error) {
    return { exitStatus: 2, complaint: `"${out}" cannot be written: ${reasonOf(error)}.\n` };
  }
}

/** Pixels as given; null where they are not a whole number within bounds. */
function readPixels(given: string | boolean | undefined, unsaid: number): number | null {
  if (given === undefined) return unsaid;
  const px = Number(given);
  return Number.isInteger(px) && px >= LEAST_PX && px <= MOST_PX ? px : null;
}

/** A caption's letters are about this wide, px. */
const LETTER_PX = 5.4;

/** A caption broken at words so that its lines fit a sheet. */
function captionLines(caption: string, widthPx: number): readonly string[] {
  const most = Math.max(20, Math.floor((widthPx - 48) / LETTER_PX));
  const lines: string[] = [];
  for (const word of caption.split(" ")) {
    const last = lines.at(-1);
    if (last === undefined || last.length + word.length + 1 > most) lines.push(word);
    else lines[lines.length - 1] = `${last} ${word}`;
  }
  return lines;
}
