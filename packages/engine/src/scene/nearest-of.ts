import { dot, type SiteVector, subtract, unit } from "../base/vector.ts";
import { type Bounds, boxDistanceSquared } from "./bounds.ts";
import { type Clearance, clearanceWithin, radiusOf, segmentsOf, shapeBounds } from "./clearance.ts";
import { type Run, runsOf } from "./runs.ts";
import type { Shape } from "./solids.ts";

export interface NearestOf {
  /** Index of the nearest among `others`. */
  readonly index: number;
  readonly clearance: Clearance;
}

/**
 * Which of many shapes is nearest to a shape, and how far? `null` where none is nearer than `withinM`.
 *
 * Not looked at are those whose box is farther than the nearest so far, or lies farther ahead in the direction of that.
 */
export function nearestOf(subject: Shape, others: readonly Shape[], withinM = Number.MAX_VALUE): NearestOf | null {
  return others.length <= FEW ? nearestOfFew(subject, others, withinM) : nearestOfMany(subject, others, withinM);
}

/** So few are not worth putting in order. */
const FEW = 4;

function nearestOfFew(subject: Shape, others: readonly Shape[], withinM: number): NearestOf | null {
  let nearest: NearestOf | null = null;
  for (let index = 0; index < others.length; index++) {
    const found = clearanceWithin(subject, others[index]!, nearest?.clearance.distanceM ?? withinM);
    if (found && found.distanceM < (nearest?.clearance.distanceM ?? withinM)) nearest = { index, clearance: found };
  }
  return nearest;
}

function nearestOfMany(subject: Shape, others: readonly Shape[], withinM: number): NearestOf | null {
  const round = shapeBounds(subject);
  const byBox = <T extends { readonly bounds: Bounds }>(list: readonly T[]) =>
    list.map((one) => ({ one, box: Math.sqrt(boxDistanceSquared(round, one.bounds)) })).sort((p, q) => p.box - q.box);
  let nearest: NearestOf | null = null;
  let beyondM = withinM;
  let aheadM = (_: Bounds): number => 0;
  for (const { one: run, box: runBox } of byBox(runsOfList(others))) {
    if (runBox >= beyondM) break;
    if (aheadM(run.bounds) >= beyondM) continue;
    for (const { one, box } of byBox(run.things)) {
      if (box >= beyondM) break;
      if (aheadM(one.bounds) >= beyondM) continue;
      const found = clearanceWithin(subject, one.shape, beyondM);
      if (!found || found.distanceM >= beyondM) continue;
      nearest = { index: one.index, clearance: found };
      beyondM = found.distanceM;
      aheadM = ahead(subject, unit(subtract(found.b, found.a)));
    }
  }
  return nearest;
}

/** How far ahead of a shape, in a direction, does all that a box holds lie at least, m? They are no nearer than that. */
function ahead(shape: Shape, direction: SiteVector): (bounds: Bounds) => number {
  const points = shape.kind === "solid" ? shape.vertices : segmentsOf(shape).flat();
  const foremost = Math.max(...points.map((p) => dot(direction, p))) + radiusOf(shape);
  const [x, y, z] = direction;
  return ({ min, max }) =>
    x * (x > 0 ? min : max)[0] + y * (y > 0 ? min : max)[1] + z * (z > 0 ? min : max)[2] - foremost;
}

interface Boxed {
  readonly shape: Shape;
  readonly index: number;
  readonly bounds: Bounds;
}

const known = new WeakMap<readonly Shape[], readonly Run<Boxed>[]>();

/** A list of shapes in runs, kept by its identity: a list handed in is never changed. */
function runsOfList(shapes: readonly Shape[]): readonly Run<Boxed>[] {
  const boxed = (): Boxed[] => shapes.map((shape, index) => ({ shape, index, bounds: shapeBounds(shape) }));
  const found = known.get(shapes) ?? runsOf(boxed(), ({ bounds: { min, max } }) => [min, max]);
  known.set(shapes, found);
  return found;
}
