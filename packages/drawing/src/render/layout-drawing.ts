import type { Primitive, Style, Tone, Viewport } from "../primitives.ts";
import { type ScreenPoint, worldToScreen } from "../viewport.ts";
import { hatchLines } from "./hatch-lines.ts";
import { layoutDimension } from "./layout-dimension.ts";
import { markShape } from "./mark-shape.ts";
import { Occupancy } from "./occupancy.ts";
import { type PlacedText, type Room, SIGN_EM, type TextPrimitive, placeLabels } from "./place-labels.ts";
import type { SheetMark } from "./sheet-mark.ts";
import { shiftLine } from "./shift-line.ts";
import { textWidthPx } from "./text-width.ts";

/** No text is set smaller than this, px: it must be read in sunlight at arm's length. */
export const SMALLEST_TEXT_PX = 11;
const DIMENSION_TEXT_PX = 12;

export interface LayoutOptions extends Room {
  /** Texts this many times their usual size: larger for gloved hands and daylight. */
  readonly textScale?: number;
  /** Labels and dimensions of less than this priority (0 to 100) are left off: few words on small drawings. */
  readonly leastPriority?: number;
}

/**
 * A drawing on a sheet: every primitive in pixels, hatches drawn out, dimensions set, texts placed so that none lies on another.
 * Lines and signs come first, in the drawing's order; texts lie on top. Anything not finite is left out.
 */
export function layoutDrawing(primitives: readonly Primitive[], viewport: Viewport, options: LayoutOptions = {}): readonly SheetMark[] {
  const { textScale = 1, leastPriority = 0, headPx = 0, footPx = 0 } = options;
  const marks: SheetMark[] = [];
  const texts: TextPrimitive[] = [];
  for (const primitive of primitives) {
    if (!isFinitePrimitive(primitive) || priorityOf(primitive) < leastPriority) continue;
    layoutOne(primitive, viewport, textScale, marks, texts);
  }
  const occupancy = new Occupancy(viewport.widthPx, viewport.heightPx, headPx, footPx);
  for (const mark of marks) noteInk(mark, occupancy);
  const placed = placeLabels(texts, viewport, occupancy, { headPx, footPx });
  for (const { leader, source } of placed) {
    if (leader) marks.push({ kind: "path", parts: [leader], closed: false, stroke: source.tone, widthPx: 0.6 });
  }
  for (const text of placed) pushText(text, marks);
  return marks;
}

function layoutOne(p: Primitive, viewport: Viewport, textScale: number, marks: SheetMark[], texts: TextPrimitive[]): void {
  const screen = (w: readonly [number, number]): ScreenPoint => worldToScreen(viewport, w);
  switch (p.kind) {
    case "path": {
      const points = shiftLine(p.points.map(screen), p.shiftPx ?? 0);
      if (p.style.fill) marks.push({ kind: "path", parts: [points], closed: p.closed, fill: p.style.fill, fillOpacity: p.style.fillOpacity ?? 1 });
      if (p.style.hatch) {
        const { widthPx, heightPx } = viewport;
        const lines = hatchLines(p.style.hatch, points, { widthPx, heightPx, originPx: screen([0, 0]) });
        if (lines.length > 0) marks.push({ kind: "path", parts: lines, closed: false, stroke: p.style.stroke ?? "faint", widthPx: p.style.hatch === "parking" ? 1.1 : 0.6 });
      }
      if (p.style.stroke) marks.push({ kind: "path", parts: [points], closed: p.closed, ...strokeOf(p.style), ...titleOf(p) });
      return;
    }
    case "strokes":
      if (viewport.pxPerM >= (p.fromPxPerM ?? 0)) {
        marks.push({ kind: "path", parts: p.lines.map(([a, b]) => [screen(a), screen(b)]), closed: false, ...strokeOf(p.style), ...titleOf(p) });
      }
      return;
    case "circle": {
      const radiusPx = p.radiusPx ?? (p.radiusM ?? 0) * viewport.pxPerM;
      const fill = p.style.fill ? { fill: p.style.fill, fillOpacity: p.style.fillOpacity ?? 1 } : {};
      marks.push({ kind: "circle", at: screen(p.at), radiusPx, ...(p.style.stroke ? strokeOf(p.style) : {}), ...fill, ...titleOf(p) });
      return;
    }
    case "mark": {
      const [x, y] = screen(p.at);
      marks.push(markShape(p.shape, [x + (p.offsetPx?.[0] ?? 0), y + (p.offsetPx?.[1] ?? 0)], p.sizePx, p.style, p.title));
      return;
    }
    case "text":
      texts.push({ ...p, sizePx: Math.max(SMALLEST_TEXT_PX, p.sizePx * textScale) });
      return;
    case "arrow":
      layoutArrow(p, screen(p.from), screen(p.to), marks);
      return;
    case "dimension": {
      const laid = layoutDimension(p, viewport, DIMENSION_TEXT_PX * textScale);
      marks.push(...laid.marks);
      texts.push(laid.text);
    }
  }
}

function layoutArrow(p: Extract<Primitive, { kind: "arrow" }>, from: ScreenPoint, to: ScreenPoint, marks: SheetMark[]): void {
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (long < 1) return;
  const ux = (to[0] - from[0]) / long;
  const uy = (to[1] - from[1]) / long;
  const head = Math.min(long * 0.6, 6 + 2.2 * p.widthPx);
  const half = head * 0.34;
  const neck: ScreenPoint = [to[0] - ux * head * 0.85, to[1] - uy * head * 0.85];
  const back: ScreenPoint = [to[0] - ux * head, to[1] - uy * head];
  marks.push(
    { kind: "path", parts: [[from, neck]], closed: false, stroke: p.tone, widthPx: p.widthPx, ...(p.dash ? { dash: p.dash } : {}), ...titleOf(p) },
    { kind: "path", parts: [[to, [back[0] - uy * half, back[1] + ux * half], neck, [back[0] + uy * half, back[1] - ux * half]]], closed: true, fill: p.tone, fillOpacity: 1 },
  );
}

function pushText({ source, at, align, rotateDeg }: PlacedText, marks: SheetMark[]): void {
  const sizePx = source.sizePx;
  const strong = source.weight === "strong";
  const room = source.sign ? SIGN_EM * sizePx : 0;
  const turn = (-rotateDeg * Math.PI) / 180;
  const ux = Math.cos(turn);
  const uy = -Math.sin(turn);
  if (source.sign) {
    const width = textWidthPx(source.text, sizePx, strong, source.caps ?? false) + room;
    const begin = align === "start" ? 0 : align === "end" ? -width : -width / 2;
    const s = begin + 0.5 * sizePx;
    const up = 0.34 * sizePx;
    const centre: ScreenPoint = [at[0] + ux * s + uy * up, at[1] + uy * s - ux * up];
    const heavy: Style = { stroke: source.tone, widthPx: 2, ...(source.sign === "triangleUp" ? { fill: source.tone, fillOpacity: 0.25 } : {}) };
    marks.push(markShape(source.sign, centre, 0.78 * sizePx, { stroke: "paper", widthPx: 5 }), markShape(source.sign, centre, 0.78 * sizePx, heavy));
  }
  const shift = align === "start" ? room : align === "end" ? 0 : room / 2;
  marks.push({
    kind: "text",
    at: [at[0] + ux * shift, at[1] + uy * shift],
    text: source.text,
    align,
    sizePx,
    tone: source.tone,
    strong,
    italic: source.italic ?? false,
    caps: source.caps ?? false,
    halo: source.halo ?? false,
    rotateDeg,
  });
}

function noteInk(mark: SheetMark, occupancy: Occupancy): void {
  const weight = inkWeight(mark.kind === "text" ? undefined : mark.stroke, mark.kind === "text" ? 0 : (mark.widthPx ?? 1));
  if (weight === 0) return;
  if (mark.kind === "circle") {
    const { at: [x, y], radiusPx: r } = mark;
    for (let i = 0; i < 8; i++) {
      const [a, b] = [(i * Math.PI) / 4, ((i + 1) * Math.PI) / 4];
      occupancy.addLine([x + r * Math.cos(a), y + r * Math.sin(a)], [x + r * Math.cos(b), y + r * Math.sin(b)], weight);
    }
  } else if (mark.kind === "path") {
    for (const part of mark.parts) {
      for (let i = 0; i + 1 < part.length; i++) occupancy.addLine(part[i] as ScreenPoint, part[i + 1] as ScreenPoint, weight);
      if (mark.closed && part.length > 2) occupancy.addLine(part[part.length - 1] as ScreenPoint, part[0] as ScreenPoint, weight);
    }
  }
}

const inkWeight = (tone: Tone | undefined, widthPx: number): number =>
  tone === undefined || tone === "grid" || tone === "paper" ? 0 : widthPx < 0.7 ? 1 : widthPx < 1.6 ? 2 : 3;

const strokeOf = (style: Style): { stroke: Tone; widthPx: number; dash?: NonNullable<Style["dash"]> } => ({
  stroke: style.stroke ?? "ink",
  widthPx: style.widthPx ?? 1,
  ...(style.dash ? { dash: style.dash } : {}),
});
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
