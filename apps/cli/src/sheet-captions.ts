import { CAUTION, exampleLine, type Plan } from "@gantline/plan";

/** A caption's letters are about this wide, px. */
const LETTER_PX = 5.4;

/** What stands at the foot of every sheet: that data is invented, and the caution. */
export function sheetCaptions(plan: Plan, widthPx: number): readonly string[] {
  const example = exampleLine(plan);
  return [...(example === null ? [] : [example]), ...captionLines(CAUTION, widthPx)];
}

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
