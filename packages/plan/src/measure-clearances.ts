import {
  type HeightOverGround,
  heightOverGround,
  nearestOf,
  pointInPolygon,
  polyline,
  type Shape,
  type SiteVector,
  type Solid,
} from "@gantline/engine";
import type { Clearance, Geometry, HungLoad, RunningLine } from "./evaluation.ts";
import { powerLineDistanceM } from "./power-line-distance.ts";
import { levelDistanceM, type Mover, ropeInAir, wholeRope } from "./ropes-in-air.ts";
import type { Plan } from "./schema/plan.ts";
import { siteGround } from "./site-ground.ts";

const ladderOf = ({ ladder, platform }: Geometry): Mover => ({
  id: "ladder",
  what: "Ladder",
  shapes: platform ? [ladder, platform] : [ladder],
});

/** How near do ladder and platform come to each structure, and they and the vehicle to each power line? */
export function measureStanding(plan: Plan, geometry: Geometry): readonly Clearance[] {
  const ladder = ladderOf(geometry);
  const vehicle: Mover = { id: "vehicle", what: "Vehicle", shapes: [geometry.vehicleSolid] };
  return [
    ...geometry.structures.flatMap((s) =>
      closest("ladder", ladder, s.id, s.name, s.solids, plan.policy.ladderClearanceM.value),
    ),
    ...toPowerLines(plan, [ladder, vehicle]),
  ];
}

/** How high is the lowest place of ladder and platform above the ground? */
export function ladderHeight(plan: Plan, { ladder, platform }: Geometry): HeightOverGround {
  const ground = siteGround(plan.scene);
  const height = heightOverGround(ladder, ground);
  const below = platform && heightOverGround(platform, ground);
  return below && below.heightM < height.heightM ? below : height;
}

/**
 * How near do load and ropes come to what they must keep away from?
 *
 * The load to each structure, to ladder and vehicle; each rope to the structure it comes nearest to; load and ropes to each
 * power line. The surface a load is to land on is no obstacle to it while it is above that surface; its parapets are.
 */
export function measureMoving(
  plan: Plan,
  geometry: Geometry,
  load: HungLoad,
  lines: readonly RunningLine[],
): readonly Clearance[] {
  const { policy } = plan;
  // Where the load really hangs is known only once the forces are.
  const unplaced = lines.length > 0 ? null : " from where it is wanted; not known where it would hang.";
  const hung: Mover = { id: "load", what: "Load", shapes: [load.box], unplaced };
  const found = geometry.structures.flatMap((s) =>
    closest("load", hung, s.id, s.name, obstaclesTo(plan, load, s.id, s.solids), policy.loadClearanceM.value),
  );
  const { shapes } = ladderOf(geometry);
  found.push(
    ...closest("loadToLadder", hung, "ladder", "ladder", shapes, policy.loadToLadderClearanceM.value),
    ...closest("loadToVehicle", hung, "vehicle", "vehicle", [geometry.vehicleSolid], policy.loadClearanceM.value),
  );
  for (const line of lines) {
    const rope = ropeInAir(line);
    const nearest = nearestStructure(rope, geometry, policy.ropeClearanceM.value);
    if (nearest) found.push(nearest);
  }
  return [...found, ...toPowerLines(plan, [hung, ...lines.map(wholeRope)])];
}

/** To the structure a rope comes nearest to; before these, to one of which that is not known. */
function nearestStructure(rope: Mover, { structures }: Geometry, requiredM: number | null): Clearance | undefined {
  let nearest: Clearance | undefined;
  for (const s of structures) {
    const withinM = rope.unplaced ? undefined : nearest?.distanceM;
    for (const one of closest("rope", rope, s.id, s.name, s.solids, requiredM, withinM)) {
      const order = nearest
        ? Number(!one.unplaced) - Number(!nearest.unplaced) || one.distanceM - nearest.distanceM
        : -1;
      if (order < 0) nearest = one;
    }
  }
  return nearest;
}

const toPowerLines = (plan: Plan, movers: readonly Mover[]): Clearance[] =>
  plan.scene.powerLines.flatMap((wire) => {
    const shape = polyline(wire.wire as unknown as readonly SiteVector[]);
    const required = powerLineDistanceM(wire.voltageKv).requiredM;
    return movers.flatMap((mover) =>
      closest("power", mover, wire.id, wire.name, [shape], required).map((c) => ({ ...c, voltageKv: wire.voltageKv })),
    );
  });

function closest(
  kind: Clearance["kind"],
  mover: Mover,
  toId: string,
  toWhat: string,
  obstacles: readonly Shape[],
  requiredM: number | null,
  withinM?: number,
): Clearance[] {
  let best = null as { distanceM: number; touching: boolean; a: SiteVector; b: SiteVector } | null;
  for (const shape of mover.shapes) best = nearestOf(shape, obstacles, best?.distanceM ?? withinM)?.clearance ?? best;
  if (best === null) return [];
  const { id, what, unplaced = null, seenFromAbove = null } = mover;
  const atLeastM = seenFromAbove && requiredM !== null ? levelDistanceM(seenFromAbove, obstacles) : 0;
  const found: Clearance = {
    id: `${kind}/${id}/${toId}`,
    kind,
    what,
    toWhat,
    requiredM,
    distanceM: best.distanceM,
    touching: best.touching,
    a: best.a,
    b: best.b,
  };
  if (unplaced === null) return [found];
  if (requiredM !== null && atLeastM > requiredM) return [{ ...found, distanceM: atLeastM, atLeast: true }];
  return [{ ...found, unplaced }];
}

/** So little into a surface a load stands on it: rounding of what is entered and worked out, m. Planning default, no source. */
const STANDS_WITHIN_M = 0.01;

/** The parts of a structure a load must keep off: all of it, or only its parapets while the load is above the surface it is to land on. */
function obstaclesTo(plan: Plan, load: HungLoad, structureId: string, solids: readonly Solid[]): readonly Solid[] {
  const structure = plan.scene.structures.find((s) => s.id === structureId);
  const body = solids[0];
  if (!structure || !body) return solids;
  const goals = [plan.scene.destination, plan.scene.casualty].flatMap((p) => (p ? [p.position] : []));
  const isLanding = goals.some(
    (p) => pointInPolygon(structure.outline, [p[0], p[1]]) && Math.abs(p[2] - structure.topZM) < 0.5,
  );
  const above = load.box.bounds.min[2] >= structure.topZM - STANDS_WITHIN_M;
  return isLanding && above ? parapetsOf(solids) : solids;
}

const parapets = new WeakMap<readonly Solid[], readonly Solid[]>();

/** A structure's solids without its body; one list for each, as what is nearest of a list is kept by its identity. */
function parapetsOf(solids: readonly Solid[]): readonly Solid[] {
  const known = parapets.get(solids) ?? solids.slice(1);
  parapets.set(solids, known);
  return known;
}
