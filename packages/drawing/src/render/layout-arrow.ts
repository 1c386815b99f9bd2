import type { Primitive } from "../primitives.ts";
import type { ScreenPoint } from "../viewport.ts";
import type { SheetMark } from "./sheet-mark.ts";

/** An arrow as its shaft and a slim, swept-back head; nothing where it is shorter than a pixel. */
export function layoutArrow(
  p: Extract<Primitive, { kind: "arrow" }>,
  from: ScreenPoint,
  to: ScreenPoint,
): readonly SheetMark[] {
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (long < 1) return [];
  const ux = (to[0] - from[0]) / long;
  const uy = (to[1] - from[1]) / long;
  const head = Math.min(long * 0.6, 6 + 2.2 * p.widthPx);
  const half = head * 0.34;
  const neck: ScreenPoint = [to[0] - ux * head * 0.85, to[1] - uy * head * 0.85];
  const back: ScreenPoint = [to[0] - ux * head, to[1] - uy * head];
  return [
    {
      kind: "path",
      parts: [[from, neck]],
      closed: false,
      stroke: p.tone,
      widthPx: p.widthPx,
      ...(p.dash ? { dash: p.dash } : {}),
      ...(p.title ? { title: p.title } : {}),
    },
    {
      kind: "path",
      parts: [[to, [back[0] - uy * half, back[1] + ux * half], neck, [back[0] + uy * half, back[1] - ux * half]]],
      closed: true,
      fill: p.tone,
      fillOpacity: 1,
    },
  ];
}
