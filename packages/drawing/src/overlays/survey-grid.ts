import { FOOT_M, type UnitSystem } from "@gantline/plan";
import type { Primitive, Viewport, WorldPoint } from "../primitives.ts";
import { roundUp125 } from "../shared/force-scale.ts";
import { screenToWorld, viewBounds } from "../viewport.ts";

const LEAST_STEP_PX = 70;

/** A light grid at a round step with its figures along the upper and left edge: distance across and height, or east and north. */
export function surveyGrid(viewport: Viewport, system: UnitSystem, topPx = 0, bottomPx = 0): readonly Primitive[] {
  const unitM = system === "metric" ? 1 : FOOT_M;
  const step = roundUp125(LEAST_STEP_PX / viewport.pxPerM / unitM) * unitM;
  const { minX, minY, maxX, maxY } = viewBounds(viewport);
  const stations = (from: number, to: number): readonly number[] => {
    const first = Math.ceil(from / step);
    const count = Math.min(60, Math.max(0, Math.floor(to / step) - first + 1));
    return Array.from({ length: count }, (_, i) => (first + i) * step);
  };
  const xs = stations(minX, maxX);
  const ys = stations(minY, maxY);
  const lines = [
    ...xs.map((x): readonly [WorldPoint, WorldPoint] => [
      [x, minY],
      [x, maxY],
    ]),
    ...ys.map((y): readonly [WorldPoint, WorldPoint] => [
      [minX, y],
      [maxX, y],
    ]),
  ];
  const figure = (value: number): string => `${Number((value / unitM).toPrecision(6))}`.replace("-", "−");
  const [, top] = screenToWorld(viewport, [0, topPx + 15]);
  const [left] = screenToWorld(viewport, [14, 0]);
  const inside = (value: number, low: number, high: number, px: number): boolean =>
    (value - low) * viewport.pxPerM > px && (high - value) * viewport.pxPerM > px;
  return [
    { kind: "strokes", lines, style: { stroke: "grid", widthPx: 0.8 } },
    ...xs
      .filter((x) => inside(x, minX, maxX, 40))
      .map(
        (x): Primitive => ({
          kind: "text",
          at: [x, top],
          text: figure(x),
          align: "middle",
          sizePx: 11,
          tone: "faint",
          halo: true,
        }),
      ),
    ...ys
      .filter((y) => inside(y, minY, maxY, topPx + 30) && (y - minY) * viewport.pxPerM > bottomPx + 60)
      .map(
        (y): Primitive => ({
          kind: "text",
          at: [left, y],
          text: figure(y),
          align: "start",
          offsetPx: [0, 4],
          sizePx: 11,
          tone: "faint",
          halo: true,
        }),
      ),
  ];
}
