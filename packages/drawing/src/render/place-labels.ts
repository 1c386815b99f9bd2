import type { Bounds, Primitive, Viewport } from "../primitives.ts";
import { type ScreenPoint, screenToWorld, worldToScreen } from "../viewport.ts";
import type { Box, Occupancy } from "./occupancy.ts";
import { textWidthPx } from "./text-width.ts";

export type TextPrimitive = Extract<Primitive, { kind: "text" }>;
export type DimensionPrimitive = Extract<Primitive, { kind: "dimension" }>;

/** A text that has found its place on the sheet. */
export interface PlacedText {
  readonly source: TextPrimitive;
  /** Where the baseline begins, is centred or ends. */
  readonly at: ScreenPoint;
  readonly align: "start" | "middle" | "end";
  readonly rotateDeg: number;
  readonly box: Box;
  /** A thin line back to its thing, where it had to move away. */
  readonly leader: readonly [ScreenPoint, ScreenPoint] | null;
}

/** Room a sign takes before its text, in type sizes. */
export const SIGN_EM = 1.25;
const ASCENT = 0.74;
const DESCENT = 0.22;
const PAD_PX = 1.5;
const LEADER_FROM_PX = 24;
/** Against one pixel of distance: a line under the text, a pixel beyond the sheet's edge. */
const INK_COST = 1.6;
const EDGE_COST = 6;
const AREA_SHARES = [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9];
const RINGS_PX = [0, 13, 26, 40, 58, 80, 110];

/** Parts of the sheet taken up by other things, px. */
export interface Room {
  readonly headPx?: number;
  readonly footPx?: number;
}

interface Candidate {
  readonly at: ScreenPoint;
  readonly align: "start" | "middle" | "end";
  readonly moved: number;
}

/**
 * Where does each text go, so that none lies on another?
 *
 * Greedy and deterministic: fixed texts first, then labels by priority (then by order), each at the cheapest of a few places
 * round its thing; ink under it, distance and the sheet's edge all cost. A label with no free place is left off, unless it is to be kept.
 */
export function placeLabels(texts: readonly TextPrimitive[], viewport: Viewport, occupancy: Occupancy, room: Room = {}): readonly PlacedText[] {
  const placed: PlacedText[] = [];
  for (const text of texts) {
    if (text.label) continue;
    const home = homeOf(text, viewport);
    const it = settle(text, home, viewport);
    occupancy.addBox(it.box);
    placed.push(it);
  }
  const movable = texts.filter((t) => t.label).sort((a, b) => (b.label?.priority ?? 0) - (a.label?.priority ?? 0));
  for (const asked of movable) {
    const text = asked.label?.area ? inView(asked, asked.label.area, viewport, room) : asked;
    const it = text && cheapest(text, viewport, occupancy);
    if (!it) continue;
    occupancy.addBox(it.box);
    placed.push(it);
  }
  return placed;
}

function cheapest(text: TextPrimitive, viewport: Viewport, occupancy: Occupancy): PlacedText | null {
  const anchor = worldToScreen(viewport, text.at);
  if (anchor[0] < -40 || anchor[1] < -40 || anchor[0] > viewport.widthPx + 40 || anchor[1] > viewport.heightPx + 40) return null;
  const size = sizeOf(text);
  let best: Candidate | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of candidates(text, viewport)) {
    if (candidate.moved >= least) continue;
    const box = boxAt(text, candidate, size);
    const cost = candidate.moved + INK_COST * occupancy.inkUnder(box) + EDGE_COST * occupancy.overEdge(box);
    if (cost < least && !occupancy.hitsText(box)) {
      least = cost;
      best = candidate;
    }
  }
  const chosen = best ?? (text.label?.keep ? homeOf(text, viewport) : null);
  return chosen && settle(text, chosen, viewport);
}

function homeOf(text: TextPrimitive, viewport: Viewport): Candidate {
  const [x, y] = worldToScreen(viewport, text.at);
  const [dx, dy] = text.offsetPx ?? [0, 0];
  return { at: [x + dx, y + dy], align: text.align, moved: 0 };
}

/** The wanted place, then places round the thing, farther and farther out. */
function* candidates(text: TextPrimitive, viewport: Viewport): Generator<Candidate> {
  const home = homeOf(text, viewport);
  yield home;
  const [ax, ay] = worldToScreen(viewport, text.at);
  const rotation = text.rotateRad ?? 0;
  if (text.label?.area) yield* withinArea(text, text.label.area, viewport);
  if (rotation !== 0) {
    const ux = Math.cos(rotation);
    const uy = -Math.sin(rotation);
    for (const s of [18, -18, 40, -40, 70, -70, 110, -110]) {
      yield { at: [home.at[0] + ux * s, home.at[1] + uy * s], align: text.align, moved: Math.abs(s) * 0.25 + 3 };
    }
    return;
  }
  const wanted = Math.atan2(home.at[1] - ay, home.at[0] - ax);
  const middle = 0.26 * text.sizePx;
  const base = Math.max(8, Math.hypot(home.at[0] - ax, home.at[1] - ay - middle));
  for (const ring of RINGS_PX) {
    for (const turn of [0, 0.5, -0.5, 1, -1, 1.6, -1.6, 2.3, -2.3, Math.PI]) {
      const angle = wanted + turn;
      const r = base + ring;
      const cx = Math.cos(angle);
      yield {
        at: [ax + r * cx, ay + r * Math.sin(angle) + middle],
        align: cx > 0.3 ? "start" : cx < -0.3 ? "end" : "middle",
        moved: 4 + ring * 0.35 + Math.abs(turn) * 4,
      };
    }
  }
}

/** The same text with its area cut to what is in view, and itself in the middle of that; null where nothing of it is in view. */
function inView(text: TextPrimitive, area: Bounds, viewport: Viewport, { headPx = 0, footPx = 0 }: Room): TextPrimitive | null {
  const [left, top] = screenToWorld(viewport, [0, headPx]);
  const [right, bottom] = screenToWorld(viewport, [viewport.widthPx, viewport.heightPx - footPx]);
  const seen: Bounds = { minX: Math.max(area.minX, left), maxX: Math.min(area.maxX, right), minY: Math.max(area.minY, bottom), maxY: Math.min(area.maxY, top) };
  if (seen.minX >= seen.maxX || seen.minY >= seen.maxY) return null;
  return { ...text, at: [(seen.minX + seen.maxX) / 2, (seen.minY + seen.maxY) / 2], label: { priority: 0, ...text.label, area: seen } };
}

/** A raster of places inside an area, from its middle outward. */
function* withinArea(text: TextPrimitive, area: Bounds, viewport: Viewport): Generator<Candidate> {
  const [x0, y0] = worldToScreen(viewport, [area.minX, area.maxY]);
  const [x1, y1] = worldToScreen(viewport, [area.maxX, area.minY]);
  const half = sizeOf(text) / 2 + 4;
  const high = text.sizePx;
  for (const v of AREA_SHARES) {
    for (const u of AREA_SHARES) {
      const x = x0 + u * (x1 - x0);
      const y = y0 + v * (y1 - y0);
      if (x - half < x0 || x + half > x1 || y - high < y0 || y + high > y1) continue;
      yield { at: [x, y + 0.26 * text.sizePx], align: "middle", moved: (Math.abs(u - 0.5) + Math.abs(v - 0.5)) * 8 };
    }
  }
}

/** The text at a candidate place, with the box it fills and the leader it needs. */
function settle(text: TextPrimitive, candidate: Candidate, viewport: Viewport): PlacedText {
  const rotation = text.rotateRad ?? 0;
  const box = boxAt(text, candidate, sizeOf(text));
  return {
    source: text,
    at: candidate.at,
    align: candidate.align,
    rotateDeg: (-rotation * 180) / Math.PI,
    box,
    leader: candidate.moved > 0 && rotation === 0 && !within(text.label?.area, box, viewport) ? leaderTo(box, worldToScreen(viewport, text.at)) : null,
  };
}

/** Does the middle of the box lie in the area? */
function within(area: Bounds | undefined, box: Box, viewport: Viewport): boolean {
  if (!area) return false;
  const [x, y] = screenToWorld(viewport, [box.cx, box.cy]);
  return x >= area.minX && x <= area.maxX && y >= area.minY && y <= area.maxY;
}

const sizeOf = (text: TextPrimitive): number =>
  textWidthPx(text.text, text.sizePx, text.weight === "strong", text.caps ?? false) + (text.sign ? SIGN_EM * text.sizePx : 0);

/** The box a text of some width fills at a candidate place. */
function boxAt(text: TextPrimitive, candidate: Candidate, widthPx: number): Box {
  const rotation = text.rotateRad ?? 0;
  const ux = rotation === 0 ? 1 : Math.cos(rotation);
  const uy = rotation === 0 ? 0 : -Math.sin(rotation);
  const along = candidate.align === "start" ? widthPx / 2 : candidate.align === "end" ? -widthPx / 2 : 0;
  const up = ((ASCENT - DESCENT) / 2) * text.sizePx;
  return {
    cx: candidate.at[0] + along * ux + up * uy,
    cy: candidate.at[1] + along * uy - up * ux,
    halfW: widthPx / 2 + PAD_PX,
    halfH: ((ASCENT + DESCENT) / 2) * text.sizePx + PAD_PX,
    ux,
    uy,
  };
}

/** From the nearest point of the box to the thing; null where they are close. */
function leaderTo(box: Box, anchor: ScreenPoint): readonly [ScreenPoint, ScreenPoint] | null {
  const from: ScreenPoint = [
    Math.min(box.cx + box.halfW, Math.max(box.cx - box.halfW, anchor[0])),
    Math.min(box.cy + box.halfH, Math.max(box.cy - box.halfH, anchor[1])),
  ];
  return Math.hypot(from[0] - anchor[0], from[1] - anchor[1]) > LEADER_FROM_PX ? [from, anchor] : null;
}
