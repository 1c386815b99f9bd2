import type { Evolution, Plan, UnitSystem } from "@gantline/plan";
import { svgChart } from "../curve/svg-chart.ts";
import { worstCurve } from "../curve/worst-curve.ts";
import type { Primitive } from "../primitives.ts";
import type { SvgNode } from "../render/svg-node.ts";
import { textWidthPx } from "../render/text-width.ts";
import { wrapText } from "../render/wrap-text.ts";
import {
  composedSheet,
  EDGE_PX,
  HEAD_PX,
  headAndFoot,
  LINE_PX,
  type Place,
  placed,
  type SheetInk,
  sheetText,
} from "../shared/composed-sheet.ts";
import { STATUS_SIGN, STATUS_TONE } from "../shared/status-sign.ts";
import type { SvgOptions } from "../to-svg.ts";
import { framePicture } from "./frame-picture.ts";
import { type StoryboardFrame, storyboard } from "./storyboard.ts";

export interface StoryboardSheetOptions extends SvgOptions {
  readonly widthPx: number;
  readonly system: UnitSystem;
  /** Frames side by side; left out, as many as have room. */
  readonly columns?: number;
  /** Lines at the foot: the caution, and that data is an example. */
  readonly captions?: readonly string[];
}

const GAP_PX = 12;
const LEAST_FRAME_PX = 225;
const PICTURE_SHAPE = 0.8;
const MOST_PICTURE_PX = 270;
const CURVE_PX = 230;
const TEXT_PX = 11.5;
const PAD_PX = 8;

/**
 * The storyboard as one sheet to print or keep: a frame for each stage in rows, the curve of the worst ratio under them, and
 * captions at the foot. As high as it needs to be.
 */
export function storyboardSheet(plan: Plan, evolution: Evolution, options: StoryboardSheetOptions): SvgNode {
  const { widthPx, system, captions = [] } = options;
  const frames = storyboard(plan, evolution, { system });
  const room = widthPx - 2 * EDGE_PX + GAP_PX;
  const columns = Math.max(
    1,
    options.columns ?? columnsFor(frames.length, Math.floor(room / (LEAST_FRAME_PX + GAP_PX))),
  );
  const framePx = room / columns - GAP_PX;
  const laid = frames.map((frame) => ({ frame, lines: frameLines(frame, framePx - 2 * PAD_PX) }));
  const rows = Array.from({ length: Math.ceil(frames.length / columns) }, (_, r) =>
    laid.slice(r * columns, (r + 1) * columns),
  );
  const parts: SvgNode[] = [];
  const ink: SheetInk = { primitives: [], at: (x, y) => [x, -y] };
  let y = HEAD_PX + 10;
  for (const row of rows) {
    const titleLines = Math.max(...row.map(({ lines }) => lines.title.length));
    const textLines = Math.max(...row.map(({ lines }) => lines.worst.length + lines.facts.length));
    const picturePx = Math.min(MOST_PICTURE_PX, framePx * PICTURE_SHAPE);
    const size: FrameSize = {
      widthPx: framePx,
      titlePx: titleLines * LINE_PX + 10,
      picturePx,
      heightPx: titleLines * LINE_PX + 10 + picturePx + textLines * LINE_PX + 14,
    };
    row.forEach(({ frame, lines }, c) => {
      const x = EDGE_PX + c * (framePx + GAP_PX);
      parts.push(picture(frame, x, y + size.titlePx, size, options));
      ink.primitives.push(...frameInk(frame, lines, x, y, size, ink.at));
    });
    y += size.heightPx + GAP_PX;
  }
  const curve = worstCurve(evolution, {
    widthPx: widthPx - 2 * EDGE_PX,
    heightPx: CURVE_PX,
    system,
    closeRatio: plan.policy.closeRatio.value,
  });
  parts.push(placed(svgChart(curve, options), EDGE_PX, y));
  y += CURVE_PX + 4;
  ink.primitives.push(...headAndFoot({ title: "Storyboard", name: plan.name, captions }, widthPx, y, ink.at));
  const heightPx = Math.ceil(y + captions.length * LINE_PX + 20);
  return composedSheet(ink.primitives, parts, {
    title: `${plan.name}: storyboard`,
    description: `${frames.map((f) => `Stage ${f.number}, ${f.title}: ${f.worstText}.`).join(" ")} ${curve.description}`,
    widthPx,
    heightPx,
    options,
  });
}

/** As few rows as there is room for, with their frames shared out evenly. */
function columnsFor(frames: number, most: number): number {
  const rows = Math.ceil(frames / Math.max(1, most));
  return Math.ceil(frames / Math.max(1, rows));
}

interface FrameSize {
  readonly widthPx: number;
  readonly titlePx: number;
  readonly picturePx: number;
  readonly heightPx: number;
}

interface FrameLines {
  readonly title: readonly string[];
  readonly worst: readonly string[];
  readonly facts: readonly string[];
}

function frameLines(frame: StoryboardFrame, roomPx: number): FrameLines {
  const wrapped = (text: string, strong: boolean, room: number, most: number): readonly string[] =>
    wrapText(text, room, most, (t) => textWidthPx(t, strong ? 13 : TEXT_PX, strong, false));
  return {
    title: wrapped(`${frame.number}  ${frame.title}`, true, roomPx, 2),
    worst: wrapped(frame.worstText, true, roomPx - 6, 4),
    facts: frame.facts.flatMap((fact) => wrapped(fact, false, roomPx, 2)),
  };
}

/** The section of a frame, cut off at its edges. */
function picture(
  frame: StoryboardFrame,
  x: number,
  y: number,
  size: FrameSize,
  options: StoryboardSheetOptions,
): SvgNode {
  const { widthPx, picturePx: heightPx } = size;
  return placed(framePicture(frame.drawing, { ...options, widthPx, heightPx }), x, y);
}

function frameInk(
  frame: StoryboardFrame,
  lines: FrameLines,
  x: number,
  y: number,
  size: FrameSize,
  at: Place,
): readonly Primitive[] {
  const tone = STATUS_TONE[frame.status];
  const strip = size.titlePx + size.picturePx;
  const first = y + strip + LINE_PX;
  return [
    {
      kind: "path",
      points: [at(x, y), at(x + size.widthPx, y), at(x + size.widthPx, y + size.heightPx), at(x, y + size.heightPx)],
      closed: true,
      style: { stroke: frame.status === "within" ? "ink" : tone, widthPx: frame.status === "within" ? 1 : 2 },
    },
    {
      kind: "strokes",
      lines: [y + size.titlePx, y + strip].map((v) => [at(x, v), at(x + size.widthPx, v)]),
      style: { stroke: "faint", widthPx: 0.6 },
    },
    ...lines.title.map((t, i) => sheetText(at(x + PAD_PX, y + 4 + (i + 0.8) * LINE_PX), t, 13, "strong")),
    ...lines.worst.map(
      (t, i): Primitive => ({
        ...sheetText(at(x + PAD_PX, first + i * LINE_PX), t, TEXT_PX, "strong"),
        tone,
        ...(i === 0 ? { sign: STATUS_SIGN[frame.status] } : {}),
      }),
    ),
    ...lines.facts.map((t, i) => sheetText(at(x + PAD_PX, first + (lines.worst.length + i) * LINE_PX), t, TEXT_PX)),
  ];
}
