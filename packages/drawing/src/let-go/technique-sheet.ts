import type { Plan, TechniqueRow, UnitSystem } from "@gantline/plan";
import type { Drawing } from "../primitives.ts";
import type { SvgNode } from "../render/svg-node.ts";
import { textWidthPx } from "../render/text-width.ts";
import { wrapText } from "../render/wrap-text.ts";
import { boundsOf, cornersOf } from "../shared/bounds.ts";
import {
  composedSheet,
  EDGE_PX,
  HEAD_PX,
  headAndFoot,
  LINE_PX,
  placed,
  type SheetInk,
  sheetText,
} from "../shared/composed-sheet.ts";
import { framePicture } from "../storyboard/frame-picture.ts";
import type { SvgOptions } from "../to-svg.ts";
import { drawTechnique } from "./draw-technique.ts";
import { techniqueSays, techniqueTitle } from "./technique-says.ts";

export interface TechniqueSheetOptions extends SvgOptions {
  readonly widthPx: number;
  readonly system: UnitSystem;
  /** The plan's name, at the head. */
  readonly name: string;
  /** Lines at the foot: what the model leaves out, the caution, and that data is an example. */
  readonly captions: readonly string[];
}

const GAP_PX = 12;
const PAD_PX = 8;
const PICTURE_PX = 190;
const TEXT_PX = 11.5;
const MOST_LINES = 3;
const COLUMNS = 2;
/** Of a frame's width, for the picture from above. */
const ABOVE_SHARE = 0.28;

/** Techniques side by side as one sheet to teach from: each as it hangs, when a line goes, and from above, to one scale a view, over its figures. As high as it needs to be. */
export function techniqueSheet(
  rows: readonly { readonly row: TechniqueRow; readonly plan: Plan | null }[],
  { widthPx, system, name, captions, ...options }: TechniqueSheetOptions,
): SvgNode {
  const framePx = (widthPx - 2 * EDGE_PX + GAP_PX) / COLUMNS - GAP_PX;
  const abovePx = ABOVE_SHARE * framePx;
  const sidePx = (framePx - abovePx) / 2;
  const wrapped = (text: string, sizePx: number, strong: boolean, most: number): readonly string[] =>
    wrapText(text, framePx - 2 * PAD_PX, most, (t) => textWidthPx(t, sizePx, strong, false));
  const laid = rows.map(({ row, plan }) => ({
    title: wrapped(techniqueTitle(row), 13, true, 2),
    facts: techniqueSays(row, system).flatMap((fact) => wrapped(fact, TEXT_PX, false, MOST_LINES)),
    drawings: plan && drawTechnique(plan, row, { system }),
  }));
  const boundsOfAll = (view: "rest" | "above") =>
    boundsOf(laid.flatMap(({ drawings }) => (drawings ? cornersOf(drawings[view].bounds) : [])));
  const bounds = { rest: boundsOfAll("rest"), above: boundsOfAll("above") };
  /** All of a view to one scale. */
  const picture = (drawing: Drawing, view: "rest" | "above", pictureWidthPx: number): SvgNode =>
    framePicture({ ...drawing, bounds: bounds[view] }, { ...options, widthPx: pictureWidthPx, heightPx: PICTURE_PX });
  const parts: SvgNode[] = [];
  const ink: SheetInk = { primitives: [], at: (x, y) => [x, -y] };
  let y = HEAD_PX + 10;
  for (let k = 0; k < laid.length; k += COLUMNS) {
    const across = laid.slice(k, k + COLUMNS);
    const titlePx = Math.max(...across.map(({ title }) => title.length)) * LINE_PX + 10;
    const heightPx = titlePx + PICTURE_PX + Math.max(...across.map(({ facts }) => facts.length)) * LINE_PX + 14;
    across.forEach(({ title, facts, drawings }, c) => {
      const x = EDGE_PX + c * (framePx + GAP_PX);
      const below = y + titlePx + PICTURE_PX;
      if (drawings) {
        parts.push(placed(picture(drawings.rest, "rest", sidePx), x, y + titlePx));
        parts.push(placed(picture(drawings.above, "above", abovePx), x + 2 * sidePx, y + titlePx));
      }
      if (drawings?.gone) parts.push(placed(picture(drawings.gone, "rest", sidePx), x + sidePx, y + titlePx));
      const box = [ink.at(x, y), ink.at(x + framePx, y), ink.at(x + framePx, y + heightPx), ink.at(x, y + heightPx)];
      ink.primitives.push(
        { kind: "path", points: box, closed: true, style: { stroke: "ink", widthPx: 1 } },
        {
          kind: "strokes",
          lines: [y + titlePx, below].map((v) => [ink.at(x, v), ink.at(x + framePx, v)] as const),
          style: { stroke: "faint", widthPx: 0.6 },
        },
        ...title.map((t, i) => sheetText(ink.at(x + PAD_PX, y + 4 + (i + 0.8) * LINE_PX), t, 13, "strong")),
        ...facts.map((t, i) => sheetText(ink.at(x + PAD_PX, below + (i + 1) * LINE_PX), t, TEXT_PX)),
      );
    });
    y += heightPx + GAP_PX;
  }
  const foot = captions.flatMap((caption) =>
    wrapText(caption, widthPx - 2 * EDGE_PX, 4, (t) => textWidthPx(t, 11, false, false)),
  );
  ink.primitives.push(...headAndFoot({ title: "Techniques side by side", name, captions: foot }, widthPx, y, ink.at));
  return composedSheet(ink.primitives, parts, {
    title: `${name}: techniques side by side`,
    description: laid.map(({ title, facts }) => `${title.join(" ")}: ${facts.join(" ")}.`).join(" "),
    widthPx,
    heightPx: Math.ceil(y + foot.length * LINE_PX + 20),
    options,
  });
}
