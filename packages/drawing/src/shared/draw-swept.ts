import type { SiteVector } from "@gantline/engine";
import type { Primitive, WorldPoint } from "../primitives.ts";
import { convexHull } from "./convex-hull.ts";
import { type RopeLook, ropeLooks } from "./rope-look.ts";
import type { SweptStage } from "./swept-stages.ts";

type Project = (p: SiteVector) => WorldPoint;

/** Under `noteInk`'s dense fills, so that texts may lie on it. */
const LOAD_OPACITY = 0.11;
const ROPE_OPACITY = 0.08;
/** A part of a rope whose ends move less than this sweeps nothing, m. */
const STILL_M = 0.02;

/**
 * The space load and ropes take up over some stages, as light fills: one for the load, one for each rope, each the union of
 * the outlines between one place and the next.
 */
export function drawSwept(stages: readonly SweptStage[], project: Project): readonly Primitive[] {
  if (stages.length === 0) return [];
  const ropes = new Map(stages.flatMap((s) => s.ropes).map((r) => [r.id, r]));
  const looks = ropeLooks([...ropes.values()]);
  return [
    ...[...ropes.values()].flatMap((rope): readonly Primitive[] => {
      const rings = stages
        .flatMap((s) => s.ropes.filter((r) => r.id === rope.id))
        .flatMap((r) => ropeRings(r.places, project));
      return area(rings, (looks.get(rope.id) as RopeLook).tone, ROPE_OPACITY, `Swept by ${rope.name}`);
    }),
    ...area(
      stages.flatMap((s) => loadRings(s.load, project)),
      "load",
      LOAD_OPACITY,
      "Swept by the load",
    ),
  ];
}

function area(
  rings: readonly (readonly WorldPoint[])[],
  tone: RopeLook["tone"],
  fillOpacity: number,
  title: string,
): readonly Primitive[] {
  return rings.length === 0
    ? []
    : [{ kind: "paths", parts: rings, closed: true, style: { fill: tone, fillOpacity }, title }];
}

function loadRings(boxes: SweptStage["load"], project: Project): readonly (readonly WorldPoint[])[] {
  const outlines = boxes.map((box) => box.map(project));
  const [only] = outlines;
  if (only && outlines.length === 1) return [convexHull(only)];
  return outlines.slice(1).map((outline, i) => convexHull([...(outlines[i] ?? []), ...outline]));
}

/** From each moment to the next, each part of the rope between nodes that both moments have. */
function ropeRings(
  places: SweptStage["ropes"][number]["places"],
  project: Project,
): readonly (readonly WorldPoint[])[] {
  return places.slice(1).flatMap((after, i) => {
    const before = new Map((places[i] ?? []).map((n) => [n.id, project(n.at)]));
    const kept = after.flatMap(({ id, at }) => {
      const was = before.get(id);
      return was ? [{ was, is: project(at) }] : [];
    });
    return kept.slice(1).flatMap((end, k) => {
      const start = kept[k] as (typeof kept)[number];
      const moves = [start, end].some(({ was, is }) => Math.hypot(was[0] - is[0], was[1] - is[1]) > STILL_M);
      const ring = moves ? convexHull([start.was, start.is, end.was, end.is]) : [];
      return ring.length > 2 ? [ring] : [];
    });
  });
}
