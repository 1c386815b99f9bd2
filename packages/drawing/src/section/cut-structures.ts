import { cutOutlineByVerticalPlane, type Outline, type Solid } from "@gantline/engine";
import type { Evaluation, Plan } from "@gantline/plan";
import type { Bounds, WorldPoint } from "../primitives.ts";
import { boundsOf } from "../shared/bounds.ts";
import type { DrawnSection } from "./section-frame.ts";

/** A structure as the section shows it: the parts the plane cuts, or, if it misses it, what is seen of it. */
export interface StructureInSection {
  readonly name: string;
  /** Closed outlines of what is cut; empty where the plane misses it. */
  readonly cut: readonly (readonly WorldPoint[])[];
  readonly seen: Bounds;
  /** Nearer to the reader than the plane. */
  readonly before: boolean;
  readonly topZM: number;
}

/** Every structure, cut or seen. A cut through a parapet is drawn in one outline with the wall it stands on. */
export function cutStructures(plan: Plan, evaluation: Evaluation, frame: DrawnSection): readonly StructureInSection[] {
  const tops = new Map(plan.scene.structures.map((s) => [s.id, s.topZM]));
  return evaluation.geometry.structures.flatMap(({ id, name, solids }): StructureInSection[] => {
    const [body, ...parapets] = solids;
    if (!body) return [];
    const low = body.bounds.min[2];
    const top = tops.get(id) ?? body.bounds.max[2];
    const upstands = parapets.flatMap((p) => cutOf(p, frame).map((span) => ({ span, z: p.bounds.max[2] })));
    const cut = cutOf(body, frame).map(([from, to]) => {
      const standing = upstands
        .filter((u) => u.span[0] >= from - 1e-6 && u.span[1] <= to + 1e-6)
        .sort((a, b) => a.span[0] - b.span[0]);
      const roof = standing.flatMap(({ span: [a, b], z }): WorldPoint[] => [
        [a, top],
        [a, z],
        [b, z],
        [b, top],
      ]);
      return tidy([[from, low], [from, top], ...roof, [to, top], [to, low]]);
    });
    const corners = solids.flatMap((s) => s.vertices);
    const before = corners.reduce((sum, p) => sum + frame.before(p), 0) > 0;
    return [{ name, cut, seen: boundsOf(corners.map(frame.toSection)), before, topZM: top }];
  });
}

/** The stretches of the section line inside an upright solid. */
function cutOf(solid: Solid, frame: DrawnSection): readonly (readonly [number, number])[] {
  const cap = solid.faces.find((f) => f.normal[2] > 0.5);
  const outline: Outline = (cap?.loop ?? []).map((p) => [p[0], p[1]]);
  return cutOutlineByVerticalPlane(outline, frame.origin, frame.bearingRad);
}

/** Without points that fall on the one before. */
const tidy = (points: readonly WorldPoint[]): WorldPoint[] =>
  points.filter(
    ([x, y], i) => i === 0 || Math.hypot(x - (points[i - 1]?.[0] ?? 0), y - (points[i - 1]?.[1] ?? 0)) > 1e-9,
  );
