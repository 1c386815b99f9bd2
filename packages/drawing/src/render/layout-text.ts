import type { Style } from "../primitives.ts";
import type { ScreenPoint } from "../viewport.ts";
import { markShape } from "./mark-shape.ts";
import type { PlacedText } from "./place-labels.ts";
import type { SheetMark } from "./sheet-mark.ts";
import { SIGN_EM } from "./text-box.ts";
import { textWidthPx } from "./text-width.ts";

/** A placed text as marks: its sign, if it has one, and the words. */
export function layoutText({ source, at, align, rotateDeg }: PlacedText): readonly SheetMark[] {
  const marks: SheetMark[] = [];
  const sizePx = source.sizePx;
  const strong = source.weight === "strong";
  const turn = (-rotateDeg * Math.PI) / 180;
  const ux = Math.cos(turn);
  const uy = -Math.sin(turn);
  let shift = 0;
  if (source.sign) {
    // A text with a sign begins right after it, whatever its true width.
    const width = textWidthPx(source.text, sizePx, strong, source.caps ?? false) + SIGN_EM * sizePx;
    const begin = align === "start" ? 0 : align === "end" ? -width : -width / 2;
    const s = begin + 0.5 * sizePx;
    shift = begin + SIGN_EM * sizePx;
    const up = 0.34 * sizePx;
    const centre: ScreenPoint = [at[0] + ux * s + uy * up, at[1] + uy * s - ux * up];
    const heavy: Style = {
      stroke: source.tone,
      widthPx: 2,
      ...(source.sign === "triangleUp" ? { fill: source.tone, fillOpacity: 0.25 } : {}),
    };
    marks.push(
      markShape(source.sign, centre, 0.78 * sizePx, { stroke: "paper", widthPx: 5 }),
      markShape(source.sign, centre, 0.78 * sizePx, heavy),
    );
  }
  marks.push({
    kind: "text",
    at: [at[0] + ux * shift, at[1] + uy * shift],
    text: source.text,
    align: source.sign ? "start" : align,
    sizePx,
    tone: source.tone,
    strong,
    italic: source.italic ?? false,
    caps: source.caps ?? false,
    halo: source.halo ?? false,
    rotateDeg,
  });
  return marks;
}
