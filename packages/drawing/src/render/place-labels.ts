import type { Bounds, Viewport } from "../primitives.ts";
import { type ScreenPoint, screenToWorld, worldToScreen } from "../viewport.ts";
import { type Candidate, homeOf, inView, lookAround, type Room } from "./label-places.ts";
import type { Box, Occupancy } from "./occupancy.ts";
import { boxOf, sizeOf, standAt, type TextPrimitive } from "./text-box.ts";

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

const LEADER_FROM_PX = 24;
/** Against one pixel of distance: a line under the text, a pixel beyond the sheet's edge. */
const INK_COST = 1.6;
const AREA_INK_COST = 0.3;
const EDGE_COST = 6;
/** Against one pixel of distance from the thing, which a text drawn in from the edge may come to lie on. */
const BROUGHT_IN_COST = 0.5;

/**
 * Where does each text go, so that none lies on another?
 *
 * Greedy and deterministic: fixed texts first, then labels by priority (then those set along a line, then by order), each at the cheapest of a few places
 * round its thing; ink under it, distance and the sheet's edge all cost. A label with no free place is left off, unless it
 * is to be kept; one whose thing is out of view is left off in any case.
 */
export function placeLabels(
  texts: readonly TextPrimitive[],
  viewport: Viewport,
  occupancy: Occupancy,
  room: Room = {},
): readonly PlacedText[] {
  const placed: PlacedText[] = [];
  for (const text of texts) {
    if (text.label) continue;
    const home = homeOf(text, viewport);
    const it = settle(text, home, viewport);
    occupancy.addBox(it.box);
    placed.push(it);
  }
  const movable = texts.filter((t) => t.label).sort(sooner);
  for (const asked of movable) {
    const text = inView(asked, viewport, room);
    const it = text && cheapest(text, viewport, occupancy);
    if (!it) continue;
    occupancy.addBox(it.box);
    placed.push(it);
  }
  return placed;
}

/** By priority; of two alike, the one set along a line, which can only slide, before the one that can go anywhere. */
function sooner(a: TextPrimitive, b: TextPrimitive): number {
  const along = (t: TextPrimitive): number => (t.rotateRad ? 1 : 0);
  return (b.label?.priority ?? 0) - (a.label?.priority ?? 0) || along(b) - along(a);
}

/** The text at the place that costs least; null where every place lies on another text and it need not be kept. */
function cheapest(text: TextPrimitive, viewport: Viewport, occupancy: Occupancy): PlacedText | null {
  const size = sizeOf(text);
  const box = boxOf(text, size);
  // A text set along a line only slides along it, and is not drawn in from the sheet's edge.
  const upright = !text.rotateRad;
  let best = null as Candidate | null;
  let least = Number.POSITIVE_INFINITY;
  lookAround(
    text,
    viewport,
    (moved) => moved < least,
    (x, y, align, moved, inArea) => {
      standAt(box, text, size, x, y, align);
      const across = upright ? occupancy.intoSheetAcross(box) : 0;
      const down = upright ? occupancy.intoSheetDown(box) : 0;
      if (across !== 0 || down !== 0) standAt(box, text, size, x + across, y + down, align);
      const away = moved + BROUGHT_IN_COST * Math.sqrt(across * across + down * down);
      const ink = inArea ? AREA_INK_COST : INK_COST;
      const cost = away + ink * occupancy.inkUnder(box) + EDGE_COST * occupancy.overEdge(box);
      if (cost < least && !occupancy.hitsText(box)) {
        least = cost;
        best = { at: [x + across, y + down], align, moved: away };
      }
    },
  );
  const chosen = best ?? (text.label?.keep ? homeOf(text, viewport) : null);
  return chosen && settle(text, chosen, viewport);
}

/** The text at a candidate place, with the box it fills and the leader it needs. */
function settle(text: TextPrimitive, candidate: Candidate, viewport: Viewport): PlacedText {
  const rotation = text.rotateRad ?? 0;
  const size = sizeOf(text);
  const box = boxOf(text, size);
  standAt(box, text, size, candidate.at[0], candidate.at[1], candidate.align);
  return {
    source: text,
    at: candidate.at,
    align: candidate.align,
    rotateDeg: (-rotation * 180) / Math.PI,
    box,
    leader:
      candidate.moved > 0 && rotation === 0 && !within(text.label?.area, box, viewport)
        ? leaderTo(box, worldToScreen(viewport, text.at))
        : null,
  };
}

/** Does the middle of the box lie in the area? */
function within(area: Bounds | undefined, box: Box, viewport: Viewport): boolean {
  if (!area) return false;
  const [x, y] = screenToWorld(viewport, [box.cx, box.cy]);
  return x >= area.minX && x <= area.maxX && y >= area.minY && y <= area.maxY;
}

/** From the nearest point of the box to the thing; null where they are close. */
function leaderTo(box: Box, anchor: ScreenPoint): readonly [ScreenPoint, ScreenPoint] | null {
  const from: ScreenPoint = [
    Math.min(box.cx + box.halfW, Math.max(box.cx - box.halfW, anchor[0])),
    Math.min(box.cy + box.halfH, Math.max(box.cy - box.halfH, anchor[1])),
  ];
  return Math.hypot(from[0] - anchor[0], from[1] - anchor[1]) > LEADER_FROM_PX ? [from, anchor] : null;
}
