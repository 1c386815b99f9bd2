import { clearance, distance, lerp, polyline, type Shape, type SiteVector, site } from "@gantline/engine";
import type { RunningLine } from "./evaluation.ts";

/** Something that must keep its distance. */
export interface Mover {
  readonly id: string;
  readonly what: string;
  readonly shapes: readonly Shape[];
  /** As `Clearance` has it. */
  readonly unplaced?: string | null;
  /** The same as it may hang in any way below a straight line, seen from above; null: it is known where it is. */
  readonly seenFromAbove?: readonly SiteVector[] | null;
}

/** A rope's last stretch to what it is made fast to off the vehicle is left out toward structures: there it must come near, m. Planning default, no source. */
const END_LEFT_OUT_M = 0.5;

/** A rope as it runs or hangs, to its very ends. */
export const wholeRope = (line: RunningLine): Mover => ropeOf(line, line.hangs ?? placesOf(line));

/** The same short of where it is held or made fast. */
export const ropeInAir = (line: RunningLine): Mover =>
  // Only of its last stretch; a tagline is all one stretch.
  ropeOf(line, line.hangs ? shortened(line.hangs, 1) : shortened(placesOf(line), line.nodes.length - 1));

const placesOf = (line: RunningLine): readonly SiteVector[] => line.nodes.map((n) => n.at);

const ropeOf = (line: RunningLine, places: readonly SiteVector[]): Mover => ({
  id: line.id,
  what: line.name,
  shapes: [polyline(places)],
  unplaced: line.hangUnknown && ` from a straight line. ${line.hangUnknown}`,
  seenFromAbove: line.hangUnknown === null ? null : places,
});

function shortened(places: readonly SiteVector[], keep: number): readonly SiteVector[] {
  const left = [...places];
  let cutM = END_LEFT_OUT_M;
  for (;;) {
    const last = left.pop();
    const before = left.at(-1);
    if (!last || !before) return places.slice(0, 1);
    const length = distance(before, last);
    if (length > cutM) return [...left, lerp(before, last, 1 - cutM / length)];
    if (left.length <= keep) return left;
    cutM -= length;
  }
}

/**
 * How near does a rope come to anything however low it hangs, m? It hangs in the upright plane through its ends, so it
 * is never nearer than level-wise, seen from above. Obstacles are wires, and solids with upright sides.
 */
export function levelDistanceM(rope: readonly SiteVector[], obstacles: readonly Shape[]): number {
  let least = Number.MAX_VALUE;
  for (const shape of obstacles) {
    const level = shape.kind === "solid" ? shape : polyline(atHeight(shape.kind === "polyline" ? shape.points : [], 0));
    const heightM = shape.kind === "solid" ? (shape.bounds.min[2] + shape.bounds.max[2]) / 2 : 0;
    least = Math.min(least, clearance(polyline(atHeight(rope, heightM)), level).distanceM);
  }
  return least;
}

const atHeight = (places: readonly SiteVector[], z: number): readonly SiteVector[] =>
  places.map(([x, y]) => site(x, y, z));
