import { addScaled, distance, type SiteVector, subtract, unit, ZERO } from "../base/vector.ts";
import {
  type Bounds,
  boundsOf,
  boxDistanceSquared,
  segmentBoxDistanceSquared,
  segmentBoxesDistanceSquared,
} from "./bounds.ts";
import { type Closest, closestOnFace, closestSegments, piercesFace } from "./closest-points.ts";
import type { Segment } from "./faces.ts";
import { pointInSolid } from "./point-in-solid.ts";
import type { Shape, Solid } from "./solids.ts";

export interface Clearance {
  /** Between the two surfaces, m; 0 when they touch, cross, or one lies within the other. */
  readonly distanceM: number;
  /** Nearest point of the first shape, and of the second; the same point where they touch. */
  readonly a: SiteVector;
  readonly b: SiteVector;
  readonly touching: boolean;
}

/** Surfaces nearer than this touch, m. */
export const TOUCH_M = 1e-9;

/**
 * How far apart are two shapes, and where are they nearest?
 *
 * Exact for solids with flat sides, convex or not, for lines and for capsules, to rounding (some 1e-9 m at site sizes):
 * the nearest pair lies on two edges or on a vertex and a side, unless an edge passes through a side or one
 * solid swallows the other. Boxes round the parts keep work off pairs that cannot be nearest.
 * A polyline must have a point, a capsule's radius must not be negative.
 */
export function clearance(a: Shape, b: Shape): Clearance {
  return outward(closest(a, b, Number.MAX_VALUE), radiusOf(a), radiusOf(b));
}

/** The same, if it is less than `withinM`; else `null`. */
export function clearanceWithin(a: Shape, b: Shape, withinM: number): Clearance | null {
  const squared = withinM < 1e100 ? (withinM + radiusOf(a) + radiusOf(b)) ** 2 : Number.MAX_VALUE;
  const found = closest(a, b, squared);
  return found.squared < squared ? outward(found, radiusOf(a), radiusOf(b)) : null;
}

/** The upright box round a shape. */
export function shapeBounds(shape: Shape): Bounds {
  if (shape.kind === "solid") return shape.bounds;
  const box = boundsOf(shape.kind === "polyline" ? shape.points : [shape.from, shape.to]);
  const grow = radiusOf(shape);
  const by = [grow, grow, grow] as unknown as SiteVector;
  return grow > 0 ? { min: subtract(box.min, by), max: addScaled(box.max, by, 1) } : box;
}

/** The nearest pair of two cores, if it is nearer than asked; else places that mean nothing, as far off as asked. */
function closest(a: Shape, b: Shape, squared: number): Closest {
  const best: Closest = { squared, a: ZERO, b: ZERO };
  if (a.kind === "solid") {
    if (b.kind === "solid") solids(best, a, b);
    else turned(best, (flipped) => lines(flipped, segmentsOf(b), a));
  } else if (b.kind === "solid") lines(best, segmentsOf(a), b);
  else for (const [p, q] of segmentsOf(a)) for (const [r, s] of segmentsOf(b)) closestSegments(best, p, q, r, s);
  return best;
}

/** Run a search with the two sides exchanged. */
function turned(best: Closest, search: (flipped: Closest) => void): void {
  const flipped: Closest = { squared: best.squared, a: best.b, b: best.a };
  search(flipped);
  best.squared = flipped.squared;
  best.a = flipped.b;
  best.b = flipped.a;
}

/** Lines (first side) against a solid (second side). */
function lines(best: Closest, segments: readonly Segment[], solid: Solid): void {
  for (const ends of segments) for (const end of ends) toVertices(best, end, solid);
  for (const [p, q] of segments) {
    const box = segmentBoxDistanceSquared(p, q, solid.bounds);
    if (box >= best.squared) continue;
    if (box === 0) pierce(best, p, q, solid);
    toFaces(best, p, solid);
    toFaces(best, q, solid);
    for (const { things, bounds } of solid.edgeRuns) {
      if (segmentBoxDistanceSquared(p, q, bounds) >= best.squared) continue;
      for (const [r, s] of things)
        if (segmentBoxesDistanceSquared(p, q, r, s) < best.squared) closestSegments(best, p, q, r, s);
    }
    if (box === 0 && best.squared > 0 && pointInSolid(solid, p)) swallow(best, p);
  }
}

function solids(best: Closest, a: Solid, b: Solid): void {
  const box = boxDistanceSquared(a.bounds, b.bounds);
  if (box >= best.squared) return;
  for (const { things, bounds } of a.vertexRuns)
    if (boxDistanceSquared(bounds, b.bounds) < best.squared) for (const p of things) toVertices(best, p, b);
  verticesToFaces(best, a, b);
  turned(best, (flipped) => verticesToFaces(flipped, b, a));
  const nearA = edgesNear(b, a.bounds, best.squared);
  for (const [p, q] of edgesNear(a, b.bounds, best.squared)) {
    for (const [r, s] of nearA)
      if (segmentBoxesDistanceSquared(p, q, r, s) < best.squared) closestSegments(best, p, q, r, s);
  }
  if (box > 0) return;
  for (const [p, q] of edgesNear(a, b.bounds, MEETS)) pierce(best, p, q, b);
  for (const [r, s] of edgesNear(b, a.bounds, MEETS)) pierce(best, r, s, a);
  const inA = b.vertices[0];
  const inB = a.vertices[0];
  if (best.squared > 0 && inB && pointInSolid(b, inB)) swallow(best, inB);
  if (best.squared > 0 && inA && pointInSolid(a, inA)) swallow(best, inA);
}

/** A square that only the distance of boxes that meet is below, m². */
const MEETS = Number.MIN_VALUE;

/** Edges whose box is nearer to a box than this. */
function edgesNear(solid: Solid, box: Bounds, squared: number): readonly Segment[] {
  const near: Segment[] = [];
  for (const { things, bounds } of solid.edgeRuns) {
    if (boxDistanceSquared(bounds, box) >= squared) continue;
    for (const edge of things) if (segmentBoxDistanceSquared(edge[0], edge[1], box) < squared) near.push(edge);
  }
  return near;
}

/** The vertex nearest to a point: no more than a first guess, so that the boxes can keep work off the rest. */
function toVertices(best: Closest, p: SiteVector, solid: Solid): void {
  for (const { things, bounds } of solid.vertexRuns) {
    if (segmentBoxDistanceSquared(p, p, bounds) >= best.squared) continue;
    for (const q of things) {
      const squared = (p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2 + (p[2] - q[2]) ** 2;
      if (squared >= best.squared) continue;
      best.squared = squared;
      best.a = p;
      best.b = q;
    }
  }
}

function verticesToFaces(best: Closest, a: Solid, b: Solid): void {
  for (const { things, bounds } of a.vertexRuns)
    if (boxDistanceSquared(bounds, b.bounds) < best.squared) for (const vertex of things) toFaces(best, vertex, b);
}

function toFaces(best: Closest, p: SiteVector, solid: Solid): void {
  if (segmentBoxDistanceSquared(p, p, solid.bounds) >= best.squared) return;
  for (const { things, bounds } of solid.faceRuns)
    if (segmentBoxDistanceSquared(p, p, bounds) < best.squared)
      for (const face of things) closestOnFace(best, p, face, true);
}

function pierce(best: Closest, p: SiteVector, q: SiteVector, solid: Solid): void {
  for (const { things, bounds } of solid.faceRuns)
    if (segmentBoxDistanceSquared(p, q, bounds) === 0) for (const face of things) piercesFace(best, p, q, face);
}

function swallow(best: Closest, at: SiteVector): void {
  best.squared = 0;
  best.a = at;
  best.b = at;
}

/** From the nearest points of the cores to those of the surfaces, a radius out from each. */
function outward(best: Closest, radiusA: number, radiusB: number): Clearance {
  const apart = distance(best.a, best.b);
  const between = Math.sqrt(best.squared);
  const toward = apart > TOUCH_M ? unit(subtract(best.b, best.a)) : ZERO;
  const a = addScaled(best.a, toward, Math.min(radiusA, apart));
  const distanceM = between - radiusA - radiusB;
  if (distanceM <= TOUCH_M) return { distanceM: 0, a, b: a, touching: true };
  return { distanceM, a, b: addScaled(best.b, toward, -radiusB), touching: false };
}

export const radiusOf = (shape: Shape): number => (shape.kind === "capsule" ? shape.radiusM : 0);

export function segmentsOf(shape: Exclude<Shape, Solid>): readonly Segment[] {
  if (shape.kind === "capsule") return [[shape.from, shape.to]];
  const { points } = shape;
  const first = points[0];
  if (!first) throw new RangeError("A polyline needs a point.");
  if (points.length === 1) return [[first, first]];
  return points.slice(1).map((p, i): Segment => [points[i] as SiteVector, p]);
}
