import { writeFileSync } from "node:fs";
import { drawStandMap, type MapShown, STAND_MAP_LEAVES_OUT, svgSheet, svgText } from "@gantline/drawing";
import { evaluate, type Plan, type UnitSystem } from "@gantline/plan";
import { reasonOf } from "./read-input.ts";
import { sheetCaptions } from "./sheet-captions.ts";
import { type StandAnswer, vehicleSearches } from "./stand-report.ts";

const WIDTH_PX = 1400;
const HEIGHT_PX = 1000;

/** Writes the map of each vehicle's search; a plain sentence where a file cannot be written. */
export function writeStandMaps(
  plan: Plan,
  answer: StandAnswer,
  { file, system, shown }: { readonly file: string; readonly system: UnitSystem; readonly shown: MapShown },
): string | null {
  const searches = vehicleSearches(answer);
  const evaluation = evaluate(plan);
  for (const { found, cells } of searches) {
    const device = found[0]?.asked.device;
    const name = searches.length > 1 && device ? withId(file, device.id) : file;
    const marked = answer.entries.flatMap(({ choice, fit }, i) =>
      choice.device.id === device?.id && fit !== "fails"
        ? [{ number: i + 1, turntable: choice.turntable, headingRad: choice.headingRad }]
        : [],
    );
    const sheet = svgSheet(drawStandMap(plan, evaluation, cells, { system, shown, marked }), {
      widthPx: WIDTH_PX,
      heightPx: HEIGHT_PX,
      system,
      theme: "day",
      heading: device ? `${plan.name}, ${device.name}` : plan.name,
      captions: [...STAND_MAP_LEAVES_OUT, ...sheetCaptions(plan, WIDTH_PX)],
    });
    try {
      writeFileSync(name, svgText(sheet));
    } catch (error) {
      return `"${name}" cannot be written: ${reasonOf(error)}.\n`;
    }
  }
  return null;
}

/** The id put before the file's ending. */
const withId = (file: string, id: string): string =>
  /\.[^./\\]+$/.test(file) ? file.replace(/(\.[^./\\]+)$/, `.${id}$1`) : `${file}.${id}`;
