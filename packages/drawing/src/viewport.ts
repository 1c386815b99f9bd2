import type { Bounds, Viewport, WorldPoint } from "./primitives.ts";

/** A place on the sheet, px: right and down from the upper left corner. */
export type ScreenPoint = readonly [number, number];

const LEAST_PX_PER_M = 0.05;
const MOST_PX_PER_M = 4000;
const clampScale = (pxPerM: number): number => Math.min(MOST_PX_PER_M, Math.max(LEAST_PX_PER_M, pxPerM));

/** Room left round a drawing, px; one number for all sides, or each side its own. */
export type Margin =
  | number
  | { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };

/**
 * Which viewport shows all of `bounds` as large as it will go, with `marginPx` left free?
 * Bounds without size, or a margin that leaves no room, still give a finite viewport.
 */
export function fitViewport(bounds: Bounds, widthPx: number, heightPx: number, marginPx: Margin): Viewport {
  const m =
    typeof marginPx === "number" ? { left: marginPx, right: marginPx, top: marginPx, bottom: marginPx } : marginPx;
  const roomX = Math.max(20, widthPx - m.left - m.right);
  const roomY = Math.max(20, heightPx - m.top - m.bottom);
  const pxPerM = clampScale(
    Math.min(roomX / Math.max(bounds.maxX - bounds.minX, 0.1), roomY / Math.max(bounds.maxY - bounds.minY, 0.1)),
  );
  return {
    widthPx,
    heightPx,
    pxPerM,
    centre: [
      (bounds.minX + bounds.maxX) / 2 + (m.right - m.left) / 2 / pxPerM,
      (bounds.minY + bounds.maxY) / 2 + (m.top - m.bottom) / 2 / pxPerM,
    ],
  };
}

/** World metres to sheet pixels. */
export function worldToScreen(viewport: Viewport, [x, y]: WorldPoint): ScreenPoint {
  return [
    viewport.widthPx / 2 + (x - viewport.centre[0]) * viewport.pxPerM,
    viewport.heightPx / 2 - (y - viewport.centre[1]) * viewport.pxPerM,
  ];
}

/** Sheet pixels to world metres. */
export function screenToWorld(viewport: Viewport, [x, y]: ScreenPoint): WorldPoint {
  return [
    viewport.centre[0] + (x - viewport.widthPx / 2) / viewport.pxPerM,
    viewport.centre[1] - (y - viewport.heightPx / 2) / viewport.pxPerM,
  ];
}

/** Larger (factor > 1) or smaller about a point of the sheet, which keeps its place. */
export function zoomAt(viewport: Viewport, screenPoint: ScreenPoint, factor: number): Viewport {
  const pxPerM = clampScale(viewport.pxPerM * (Number.isFinite(factor) && factor > 0 ? factor : 1));
  const [x, y] = screenToWorld(viewport, screenPoint);
  return {
    ...viewport,
    pxPerM,
    centre: [
      x - (screenPoint[0] - viewport.widthPx / 2) / pxPerM,
      y + (screenPoint[1] - viewport.heightPx / 2) / pxPerM,
    ],
  };
}

/** Move the drawing by so many pixels right and down. */
export function panBy(viewport: Viewport, rightPx: number, downPx: number): Viewport {
  return {
    ...viewport,
    centre: [viewport.centre[0] - rightPx / viewport.pxPerM, viewport.centre[1] + downPx / viewport.pxPerM],
  };
}

/** The part of the world a viewport shows. */
export function viewBounds(viewport: Viewport): Bounds {
  const [minX, maxY] = screenToWorld(viewport, [0, 0]);
  const [maxX, minY] = screenToWorld(viewport, [viewport.widthPx, viewport.heightPx]);
  return { minX, minY, maxX, maxY };
}
