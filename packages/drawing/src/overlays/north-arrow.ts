import type { Primitive, Viewport } from "../primitives.ts";
import { screenToWorld } from "../viewport.ts";

/** An upright arrow with an N, at the upper right of the sheet: a half-filled needle. */
export function northArrow(viewport: Viewport, rightPx = 44, topPx = 64): readonly Primitive[] {
  const x = viewport.widthPx - rightPx;
  const world = (dx: number, dy: number) => screenToWorld(viewport, [x + dx, topPx + dy]);
  return [
    {
      kind: "path",
      points: [world(0, -26), world(8, 18), world(0, 10)],
      closed: true,
      style: { stroke: "ink", fill: "ink", widthPx: 1 },
      title: "North",
    },
    {
      kind: "path",
      points: [world(0, -26), world(-8, 18), world(0, 10)],
      closed: true,
      style: { stroke: "ink", fill: "paper", widthPx: 1 },
    },
    {
      kind: "text",
      at: world(0, -30),
      text: "N",
      align: "middle",
      sizePx: 15,
      tone: "ink",
      weight: "strong",
      halo: true,
    },
  ];
}

/** An arrow the way the wind blows, with its gust, under the north arrow. */
export function windArrow(
  viewport: Viewport,
  wind: { readonly fromBearingRad: number; readonly text: string },
  rightPx = 44,
  topPx = 124,
): readonly Primitive[] {
  const x = viewport.widthPx - rightPx;
  const world = (dx: number, dy: number) => screenToWorld(viewport, [x + dx, topPx + dy]);
  const s = Math.sin(wind.fromBearingRad);
  const c = Math.cos(wind.fromBearingRad);
  const barb = (back: number): readonly [readonly [number, number], readonly [number, number]] => [
    world(s * back, -c * back),
    world(s * back - c * 7 + s * 3, -c * back - s * 7 - c * 3),
  ];
  return [
    {
      kind: "arrow",
      from: world(20 * s, -20 * c),
      to: world(-20 * s, 20 * c),
      tone: "accent",
      widthPx: 2,
      title: "Wind",
    },
    { kind: "strokes", lines: [barb(20), barb(14)], style: { stroke: "accent", widthPx: 1.4 } },
    {
      kind: "text",
      at: world(22, 0),
      text: wind.text,
      align: "end",
      offsetPx: [0, 38],
      sizePx: 12,
      tone: "accent",
      halo: true,
    },
  ];
}
