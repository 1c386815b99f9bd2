import type { Viewport } from "../primitives.ts";
import { type ScreenPoint, screenToWorld, worldToScreen } from "../viewport.ts";
import type { SheetMark } from "./sheet-mark.ts";
import type { DimensionPrimitive, TextPrimitive } from "./text-box.ts";
import { textWidthPx } from "./text-width.ts";

const TICK_PX = 4.5;
const GAP_PX = 3;

/** A dimension as lines with slanting ticks at its ends, and its figure, set along it where there is room and beside it where there is not. */
export function layoutDimension(
  d: DimensionPrimitive,
  viewport: Viewport,
  textPx: number,
): { readonly marks: readonly SheetMark[]; readonly text: TextPrimitive } {
  const a = worldToScreen(viewport, d.a);
  const b = worldToScreen(viewport, d.b);
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const ux = long > 0 ? (b[0] - a[0]) / long : 1;
  const uy = long > 0 ? (b[1] - a[1]) / long : 0;
  const nx = uy;
  const ny = -ux;
  const at = (p: ScreenPoint, out: number): ScreenPoint => [p[0] + nx * out, p[1] + ny * out];
  const from = at(a, d.offsetPx);
  const to = at(b, d.offsetPx);
  const side = Math.sign(d.offsetPx);
  const tick = (p: ScreenPoint): readonly ScreenPoint[] => {
    const sx = ((ux + nx) * TICK_PX) / Math.SQRT2;
    const sy = ((uy + ny) * TICK_PX) / Math.SQRT2;
    return [
      [p[0] - sx, p[1] - sy],
      [p[0] + sx, p[1] + sy],
    ];
  };
  const witness =
    Math.abs(d.offsetPx) > 8 ? [a, b].map((p) => [at(p, side * GAP_PX), at(p, d.offsetPx + side * 4)]) : [];
  const title = d.title ? { title: d.title } : {};
  const marks: SheetMark[] = [
    { kind: "path", parts: [[from, to]], closed: false, stroke: d.tone, widthPx: 0.8, ...title },
    { kind: "path", parts: [tick(from), tick(to)], closed: false, stroke: d.tone, widthPx: 1.5 },
  ];
  if (witness.length > 0) marks.push({ kind: "path", parts: witness, closed: false, stroke: d.tone, widthPx: 0.5 });

  const width = textWidthPx(d.text, textPx, false, false) + (d.sign ? 15 : 0);
  const fits = width < long - 6;
  const middle: ScreenPoint = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const lean = readable(Math.atan2(-uy, ux));
  const lift = 4;
  const text: TextPrimitive = {
    kind: "text",
    at: screenToWorld(viewport, middle),
    text: d.text,
    align: fits ? "middle" : nx * (side || 1) >= 0 ? "start" : "end",
    offsetPx: fits
      ? [-Math.sin(lean) * lift, -Math.cos(lean) * lift]
      : [nx * (side || 1) * 7, ny * (side || 1) * 7 + 4],
    sizePx: textPx,
    tone: d.tone,
    halo: true,
    ...(fits ? { rotateRad: lean } : {}),
    ...(d.sign ? { sign: d.sign } : {}),
    label: {
      priority: d.priority ?? 50,
      keep: true,
      along: [screenToWorld(viewport, from), screenToWorld(viewport, to)],
      ...(fits ? { slidePx: (long - width) / 2 } : {}),
    },
  };
  return { marks, text };
}

/** The same lean with the text never upside down; upright lines read from below. */
function readable(angleRad: number): number {
  let a = angleRad;
  while (a > Math.PI / 2 + 1e-6) a -= Math.PI;
  while (a <= -Math.PI / 2 + 1e-6) a += Math.PI;
  return Math.abs(a) < 1e-9 ? 0 : a;
}
