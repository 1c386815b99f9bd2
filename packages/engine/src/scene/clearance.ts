import { addScaled, distance, type SiteVector, subtract, unit, ZERO } from "../base/vector.ts";
import {
  type Bounds,
  boundsOf,
  boxDistanceSquared,
  segmentBoxDistanceSquared,
  segmentBoxesDistanceSquared,
} from "./bounds.ts";
import { type Closest, closestOnFace, closestSegments, piercesFace } from "./closest-points.ts";
import { pointInSolid } from "./point-in-solid.ts";
import type { Segment, Shape, Solid } from "./solids.ts";

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
  return measured(a, b, Number.MAX_VALUE);
}

export interface NearestOf {
  /** Index of the nearest among `others`. */
  readonly index: number;
  readonly clearance: Clearance;
}

/** Which of many shapes is nearest to a shape, and how far? `null` for none. Those whose box is farther are not looked at. */
export function nearestOf(subject: Shape, others: readonly Shape[]): NearestOf | null {
  const round = shapeBounds(subject);
  const byBox = others
    .map((other, index) => ({ other, index, box: Math.sqrt(boxDistanceSquared(round, shapeBounds(other))) }))
    .sort((p, q) => p.box - q.box);
  let nearest: NearestOf | null = null;
  for (const { other, index, box } of byBox) {
    if (nearest && box >= nearest.clearance.distanceM) break;
    const found = measured(subject, other, nearest ? nearest.clearance.distanceM : Number.MAX_VALUE);
    if (!nearest || found.distanceM < nearest.clearance.distanceM) nearest = { index, clearance: found };
  }
  return nearest;
}

/** The upright box round a shape. */
export function shapeBounds(shape: Shape): Bounds {
  if (shape.kind === "solid") return shape.bounds;
  const box = boundsOf(shape.kind === "polyline" ? shape.points : [shape.from, shape.to]);
  const grow = radiusOf(shape);
  const by = [grow, grow, grow] as unknown as SiteVector;
  return grow > 0 ? { min: subtract(box.min, by), max: addScaled(box.max, by, 1) } : box;
}

/** The clearance, if it is less than `beyondM`; otherwise any value not below `beyondM`. */
function measured(a: Shape, b: Shape, beyondM: number): Clearance {
  const radii = radiusOf(a) + radiusOf(b);
  const limit = beyondM < 1e100 ? (beyondM + radii) ** 2 : Number.MAX_VALUE;
  const best: Closest = { squared: limit, a: ZERO, b: ZERO };
  if (a.kind === "solid") {
    if (b.kind === "solid") solids(best, a, b);
    else turned(best, (flipped) => lines(flipped, segmentsOf(b), a));
  } else if (b.kind === "solid") lines(best, segmentsOf(a), b);
  else for (const [p, q] of segmentsOf(a)) for (const [r, s] of segmentsOf(b)) closestSegments(best, p, q, r, s);
  return outward(best, radiusOf(a), radiusOf(b));
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
  for (const [p, q] of segments) {
    const box = segmentBoxDistanceSquared(p, q, solid.bounds);
    if (box >= best.squared) continue;
    if (box === 0) for (const face of solid.faces) piercesFace(best, p, q, face);
    for (const face of solid.faces) {
      closestOnFace(best, p, face, true);
      closestOnFace(best, q, face, true);
    }
    for (const [r, s] of solid.edges)
      if (segmentBoxesDistanceSquared(p, q, r, s) < best.squared) closestSegments(best, p, q, r, s);
    if (box === 0 && best.squared > 0 && pointInSolid(solid, p)) swallow(best, p);
  }
}

function solids(best: Closest, a: Solid, b: Solid): void {
  const box = boxDistanceSquared(a.bounds, b.bounds);
  if (box >= best.squared) return;
  verticesToVertices(best, a, b);
  verticesToFaces(best, a, b);
  turned(best, (flipped) => verticesToFaces(flipped, b, a));
  const nearB = a.edges.filter(([p, q]) => segmentBoxDistanceSquared(p, q, b.bounds) < best.squared);
  const nearA = b.edges.filter(([r, s]) => segmentBoxDistanceSquared(r, s, a.bounds) < best.squared);
  for (const [p, q] of nearB) {
    for (const [r, s] of nearA)
      if (segmentBoxesDistanceSquared(p, q, r, s) < best.squared) closestSegments(best, p, q, r, s);
  }
  if (box > 0) return;
  for (const [p, q] of a.edges) for (const face of b.faces) piercesFace(best, p, q, face);
  for (const [r, s] of b.edges) for (const face of a.faces) piercesFace(best, r, s, face);
  const inA = b.vertices[0];
  const inB = a.vertices[0];
  if (best.squared > 0 && inB && pointInSolid(b, inB)) swallow(best, inB);
  if (best.squared > 0 && inA && pointInSolid(a, inA)) swallow(best, inA);
}

/** No more than a first guess, so that the boxes can keep work off the rest. */
function verticesToVertices(best: Closest, a: Solid, b: Solid): void {
  for (const p of a.vertices) {
    for (const q of b.vertices) {
      const squared = (p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2 + (p[2] - q[2]) ** 2;
      if (squared >= best.squared) continue;
      best.squared = squared;
      best.a = p;
      best.b = q;
    }
  }
}

function verticesToFaces(best: Closest, a: Solid, b: Solid): void {
  for (const vertex of a.vertices) {
    if (segmentBoxDistanceSquared(vertex, vertex, b.bounds) >= best.squared) continue;
    for (const face of b.faces) closestOnFace(best, vertex, face, true);
  }
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

const radiusOf = (shape: Shape): number => (shape.kind === "capsule" ? shape.radiusM : 0);

function segmentsOf(shape: Exclude<Shape, Solid>): readonly Segment[] {
  if (shape.kind === "capsule") return [[shape.from, shape.to]];
  const { points } = shape;
  const first = points[0];
  if (!first) throw new RangeError("A polyline needs a point.");
  if (points.length === 1) return [[first, first]];
  return points.slice(1).map((p, i): Segment => [points[i] as SiteVector, p]);
}
