import type { Bounds, Viewport } from "../primitives.ts";
import { type ScreenPoint, screenToWorld, worldToScreen } from "../viewport.ts";
import { clipSegment } from "./clip-segment.ts";
import { sizeOf, type TextPrimitive } from "./text-box.ts";

const SLIDES_PX = [18, -18, 40, -40, 70, -70, 110, -110, 160, -160];
const AREA_SHARES = [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9];
const RINGS_PX = [0, 13, 26, 40, 58, 80, 110];
const TURNS_RAD = [0, 0.5, -0.5, 1, -1, 1.6, -1.6, 2.3, -2.3, Math.PI];

/** Parts of the sheet taken up by other things, px. */
export interface Room {
  readonly headPx?: number;
  readonly footPx?: number;
}

/** A place a text could go. */
export interface Candidate {
  readonly at: ScreenPoint;
  readonly align: "start" | "middle" | "end";
  /** What it costs to stand here rather than in the wanted place, px. */
  readonly moved: number;
}

/**
 * Told of a place: where the baseline begins, is centred or ends, px; what it costs to stand there rather than in the wanted
 * place, px; and whether it is on what the text names, where a hatch under it does little harm. In numbers, as hundreds of
 * places are looked at for every text.
 */
export type Look = (x: number, y: number, align: Candidate["align"], moved: number, inArea: boolean) => void;

/** The wanted place. */
export function homeOf(text: TextPrimitive, viewport: Viewport): Candidate {
  const [x, y] = worldToScreen(viewport, text.at);
  const [dx, dy] = text.offsetPx ?? [0, 0];
  return { at: [x + dx, y + dy], align: text.align, moved: 0 };
}

/**
 * Looks at the wanted place, then at places round the thing, farther and farther out.
 *
 * @param asks whether a place that costs so much to stand at is still of use; others are not worked out
 */
export function lookAround(
  text: TextPrimitive,
  viewport: Viewport,
  asks: (moved: number) => boolean,
  look: Look,
): void {
  const home = homeOf(text, viewport);
  const [homeX, homeY] = home.at;
  look(homeX, homeY, home.align, 0, false);
  const [ax, ay] = worldToScreen(viewport, text.at);
  const rotation = text.rotateRad ?? 0;
  if (text.label?.area) lookWithin(text, text.label.area, viewport, asks, look);
  if (rotation !== 0) {
    const ux = Math.cos(rotation);
    const uy = -Math.sin(rotation);
    const most = text.label?.slidePx ?? Number.POSITIVE_INFINITY;
    for (const s of SLIDES_PX) {
      const moved = Math.abs(s) * 0.25 + 3;
      if (Math.abs(s) <= most && asks(moved)) look(homeX + ux * s, homeY + uy * s, text.align, moved, false);
    }
    return;
  }
  const wanted = Math.atan2(homeY - ay, homeX - ax);
  const middle = 0.26 * text.sizePx;
  const base = Math.max(8, Math.hypot(homeX - ax, homeY - ay - middle));
  for (const ring of RINGS_PX) {
    for (const turn of TURNS_RAD) {
      const moved = 4 + ring * 0.35 + Math.abs(turn) * 4;
      if (!asks(moved)) continue;
      const r = base + ring;
      const cx = Math.cos(wanted + turn);
      const align = cx > 0.3 ? "start" : cx < -0.3 ? "end" : "middle";
      look(ax + r * cx, ay + r * Math.sin(wanted + turn) + middle, align, moved, false);
    }
  }
}

/** The same text with its place brought into view, if what it belongs to is; null where nothing of that is. */
export function inView(
  text: TextPrimitive,
  viewport: Viewport,
  { headPx = 0, footPx = 0 }: Room,
): TextPrimitive | null {
  const [left, top] = screenToWorld(viewport, [0, headPx]);
  const [right, bottom] = screenToWorld(viewport, [viewport.widthPx, viewport.heightPx - footPx]);
  const { area, along } = text.label ?? {};
  if (area) {
    const seen: Bounds = {
      minX: Math.max(area.minX, left),
      maxX: Math.min(area.maxX, right),
      minY: Math.max(area.minY, bottom),
      maxY: Math.min(area.maxY, top),
    };
    if (seen.minX >= seen.maxX || seen.minY >= seen.maxY) return null;
    return {
      ...text,
      at: [(seen.minX + seen.maxX) / 2, (seen.minY + seen.maxY) / 2],
      label: { priority: 0, ...text.label, area: seen },
    };
  }
  const [x, y] = text.at;
  if (x >= left && x <= right && y >= bottom && y <= top) return text;
  const part = along && clipSegment(along[0], along[1], left, bottom, right, top);
  return part ? { ...text, at: [(part[0][0] + part[1][0]) / 2, (part[0][1] + part[1][1]) / 2] } : null;
}

/** A raster of places inside an area, from its middle outward. */
function lookWithin(
  text: TextPrimitive,
  area: Bounds,
  viewport: Viewport,
  asks: (moved: number) => boolean,
  look: Look,
): void {
  const [x0, y0] = worldToScreen(viewport, [area.minX, area.maxY]);
  const [x1, y1] = worldToScreen(viewport, [area.maxX, area.minY]);
  const half = sizeOf(text) / 2 + 4;
  const high = text.sizePx;
  for (const v of AREA_SHARES) {
    for (const u of AREA_SHARES) {
      const moved = (Math.abs(u - 0.5) + Math.abs(v - 0.5)) * 8;
      const x = x0 + u * (x1 - x0);
      const y = y0 + v * (y1 - y0);
      if (!asks(moved) || x - half < x0 || x + half > x1 || y - high < y0 || y + high > y1) continue;
      look(x, y + 0.26 * text.sizePx, "middle", moved, true);
    }
  }
}
