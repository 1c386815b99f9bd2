import type { Hatch, Primitive, Style, Tone, Viewport, WorldPoint } from "../primitives.ts";
import { type ScreenPoint, worldToScreen } from "../viewport.ts";
import { hatchLines } from "./hatch-lines.ts";
import type { Room } from "./label-places.ts";
import { layoutArrow } from "./layout-arrow.ts";
import { layoutDimension } from "./layout-dimension.ts";
import { layoutText } from "./layout-text.ts";
import { markShape } from "./mark-shape.ts";
import { noteGrip, noteInk } from "./note-ink.ts";
import { Occupancy } from "./occupancy.ts";
import { placeLabels } from "./place-labels.ts";
import type { SheetMark } from "./sheet-mark.ts";
import type { Laid, SheetMemory } from "./sheet-memory.ts";
import { shiftLine } from "./shift-line.ts";
import type { TextPrimitive } from "./text-box.ts";

/** No text is set smaller than this, px: it must be read in sunlight at arm's length. */
export const SMALLEST_TEXT_PX = 11;
/** A `leastPriority` for storyboards: the pose, the force on the tip, and what is over or unknown. */
export const FEW_WORDS_PRIORITY = 81;
/** Scales (px per m) below which labels up to a priority would crowd the drawing, and that priority. Found by looking. */
const CROWDED: readonly (readonly [belowPxPerM: number, leastPriority: number])[] = [
  [4, FEW_WORDS_PRIORITY],
  [8.8, 56],
  [11.5, 36],
];

/** A sheet narrower than this holds fewer words at any scale, px. */
const ROOMY_PX = 480;

/** How few words a drawing should carry at this scale on a sheet of this width, as a `leastPriority`: all of them where there is room. */
export function wordsForScale({ pxPerM, widthPx }: Pick<Viewport, "pxPerM" | "widthPx">): number {
  const room = pxPerM * Math.min(1, widthPx / ROOMY_PX);
  return CROWDED.find(([below]) => room < below)?.[1] ?? 0;
}

const DIMENSION_TEXT_PX = 12;

export interface LayoutOptions extends Room {
  /** Texts this many times their usual size: larger for gloved hands and daylight. */
  readonly textScale?: number;
  /** Labels and dimensions of less than this priority (0 to 100) are left off: few words on small drawings. */
  readonly leastPriority?: number;
  /** Where the page lays something over the drawing to take hold of: texts keep off these places. */
  readonly grips?: readonly WorldPoint[];
}

/**
 * A drawing on a sheet: every primitive in pixels, hatches drawn out, dimensions set, texts placed so that none lies on another.
 * Lines and signs come first, in the drawing's order; texts lie on top. Anything not finite is left out.
 *
 * @param memory what the drawing came to the last time, for this sheet
 */
export function layoutDrawing(
  primitives: readonly Primitive[],
  viewport: Viewport,
  options: LayoutOptions = {},
  memory: SheetMemory | null = null,
): readonly SheetMark[] {
  const { textScale = 1, leastPriority = 0, grips = [], headPx = 0, footPx = 0 } = options;
  const marks: SheetMark[] = [];
  const texts: TextPrimitive[] = [];
  const lay = (primitive: Primitive, place: number): Laid => layoutAlone(primitive, place, viewport, textScale);
  primitives.forEach((primitive, place) => {
    if (priorityOf(primitive) < leastPriority) return;
    const laid = memory ? memory.laidOut(place, primitive, lay) : lay(primitive, place);
    for (const mark of laid.marks) marks.push(mark);
    for (const text of laid.words) texts.push(text);
  });
  const occupancy = new Occupancy(viewport.widthPx, viewport.heightPx, headPx, footPx);
  for (const mark of marks) noteInk(mark, occupancy);
  for (const grip of grips) noteGrip(worldToScreen(viewport, grip), occupancy);
  const placed = placeLabels(texts, viewport, occupancy, { headPx, footPx });
  for (const { leader, source } of placed) {
    const key = `${source.key} leader`;
    if (leader) marks.push({ key, kind: "path", parts: [leader], closed: false, stroke: source.tone, widthPx: 0.6 });
  }
  for (const text of placed)
    layoutText(text).forEach((mark, part) => {
      marks.push({ ...mark, key: `${text.source.key} words ${part}` });
    });
  return marks;
}

/** One primitive by itself: nothing, where any of it is not finite. */
function layoutAlone(primitive: Primitive, place: number, viewport: Viewport, textScale: number): Laid {
  const marks: SheetMark[] = [];
  const words: TextPrimitive[] = [];
  if (isFinitePrimitive(primitive)) layoutOne(primitive, viewport, textScale, marks, words);
  return {
    primitive,
    marks: marks.map((mark, part) => ({ ...mark, key: `${place}.${part}` })),
    words: words.map((text) => ({ ...text, key: `${place}` })),
  };
}

function layoutOne(
  p: Primitive,
  viewport: Viewport,
  textScale: number,
  marks: SheetMark[],
  texts: TextPrimitive[],
): void {
  const screen = (w: readonly [number, number]): ScreenPoint => worldToScreen(viewport, w);
  switch (p.kind) {
    case "path": {
      const points = shiftLine(p.points.map(screen), p.shiftPx ?? 0);
      if (p.style.fill)
        marks.push({
          kind: "path",
          parts: [points],
          closed: p.closed,
          fill: p.style.fill,
          fillOpacity: p.style.fillOpacity ?? 1,
        });
      marks.push(...hatchOf(p.style, [points], viewport));
      if (p.style.stroke)
        marks.push({ kind: "path", parts: [points], closed: p.closed, ...strokeOf(p.style), ...titleOf(p) });
      return;
    }
    case "paths": {
      const { fill, fillOpacity = 1, stroke } = p.style;
      const parts = p.parts.map((part) => part.map(screen));
      marks.push({
        kind: "path",
        parts,
        closed: p.closed,
        ...(stroke ? strokeOf(p.style) : {}),
        ...(fill ? { fill, fillOpacity } : {}),
        ...titleOf(p),
      });
      marks.push(...hatchOf(p.style, parts, viewport));
      return;
    }
    case "strokes":
      if (viewport.pxPerM >= (p.fromPxPerM ?? 0)) {
        marks.push({
          kind: "path",
          parts: p.lines.map(([a, b]) => [screen(a), screen(b)]),
          closed: false,
          ...strokeOf(p.style),
          ...titleOf(p),
        });
      }
      return;
    case "circle": {
      const radiusPx = p.radiusPx ?? (p.radiusM ?? 0) * viewport.pxPerM;
      const fill = p.style.fill ? { fill: p.style.fill, fillOpacity: p.style.fillOpacity ?? 1 } : {};
      marks.push({
        kind: "circle",
        at: screen(p.at),
        radiusPx,
        ...(p.style.stroke ? strokeOf(p.style) : {}),
        ...fill,
        ...titleOf(p),
      });
      return;
    }
    case "mark": {
      const [x, y] = screen(p.at);
      marks.push(
        markShape(p.shape, [x + (p.offsetPx?.[0] ?? 0), y + (p.offsetPx?.[1] ?? 0)], p.sizePx, p.style, p.title),
      );
      return;
    }
    case "text":
      texts.push({ ...p, sizePx: Math.max(SMALLEST_TEXT_PX, p.sizePx * textScale) });
      return;
    case "arrow":
      marks.push(...layoutArrow(p, screen(p.from), screen(p.to)));
      return;
    case "dimension": {
      const laid = layoutDimension(p, viewport, DIMENSION_TEXT_PX * textScale);
      marks.push(...laid.marks);
      texts.push(laid.text);
    }
  }
}

const strokeOf = (style: Style): { stroke: Tone; widthPx: number; dash?: NonNullable<Style["dash"]> } => ({
  stroke: style.stroke ?? "ink",
  widthPx: style.widthPx ?? 1,
  ...(style.dash ? { dash: style.dash } : {}),
});
const HEAVY_HATCHES: readonly Hatch[] = ["parking", "dots"];

function hatchOf(
  { hatch, hatchTone, stroke }: Style,
  rings: readonly (readonly ScreenPoint[])[],
  viewport: Viewport,
): readonly SheetMark[] {
  if (!hatch) return [];
  const { widthPx, heightPx } = viewport;
  const parts = hatchLines(hatch, rings, { widthPx, heightPx, originPx: worldToScreen(viewport, [0, 0]) });
  if (parts.length === 0) return [];
  const heavy = HEAVY_HATCHES.includes(hatch);
  return [{ kind: "path", parts, closed: false, stroke: hatchTone ?? stroke ?? "faint", widthPx: heavy ? 1.1 : 0.6 }];
}

const titleOf = (p: { readonly title?: string }): { title?: string } => (p.title ? { title: p.title } : {});

/** What cannot be left off has no priority to fall below. */
function priorityOf(p: Primitive): number {
  if (p.kind === "text") return p.label?.priority ?? Number.POSITIVE_INFINITY;
  return p.kind === "dimension" ? (p.priority ?? 50) : Number.POSITIVE_INFINITY;
}

function isFinitePrimitive(p: Primitive): boolean {
  const ok = (w: readonly [number, number]): boolean => Number.isFinite(w[0]) && Number.isFinite(w[1]);
  switch (p.kind) {
    case "path":
      return p.points.length > 0 && p.points.every(ok);
    case "paths":
      return p.parts.length > 0 && p.parts.every((part) => part.length > 0 && part.every(ok));
    case "strokes":
      return p.lines.every(([a, b]) => ok(a) && ok(b));
    case "circle":
      return ok(p.at) && Number.isFinite(p.radiusPx ?? p.radiusM ?? 0);
    case "mark":
    case "text":
      return ok(p.at);
    case "arrow":
      return ok(p.from) && ok(p.to);
    case "dimension":
      return ok(p.a) && ok(p.b);
  }
}
