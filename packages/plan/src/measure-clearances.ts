import {
  clearance,
  distance,
  lerp,
  nearestOf,
  pointInPolygon,
  polyline,
  type Shape,
  type SiteVector,
  type Solid,
} from "@gantline/engine";
import type { Clearance, Geometry, HungLoad, RunningLine } from "./evaluation.ts";
import { powerLineDistanceM } from "./power-line-distance.ts";
import type { Plan } from "./schema/plan.ts";

interface Mover {
  readonly id: string;
  readonly what: string;
  readonly shapes: readonly Shape[];
}

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

/**
 * How near do load and ropes come to what they must keep away from?
 *
 * The load to each structure and to the ladder; each rope to the structure it comes nearest to; load and ropes to each
 * power line. The surface a load is to land on is no obstacle to it while it is above that surface; its parapets are.
 */
export function measureMoving(
  plan: Plan,
  geometry: Geometry,
  load: HungLoad,
  lines: readonly RunningLine[],
): readonly Clearance[] {
  const { policy } = plan;
  const hung: Mover = { id: "load", what: "Load", shapes: [load.box] };
  const ropes: Mover[] = lines.map((l) => ({ id: l.id, what: l.name, shapes: [polyline(ropeInAir(l))] }));
  const found = geometry.structures.flatMap((s) =>
    closest("load", hung, s.id, s.name, obstaclesTo(plan, load, s.id, s.solids), policy.loadClearanceM.value),
  );
  const { shapes } = ladderOf(geometry);
  found.push(...closest("loadToLadder", hung, "ladder", "ladder", shapes, policy.loadToLadderClearanceM.value));
  for (const rope of ropes) {
    const nearest = geometry.structures
      .flatMap((s) => closest("rope", rope, s.id, s.name, s.solids, policy.ropeClearanceM.value))
      .sort((a, b) => a.distanceM - b.distanceM)[0];
    if (nearest) found.push(nearest);
  }
  return [...found, ...toPowerLines(plan, [hung, ...ropes])];
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
): Clearance[] {
  let best: { distanceM: number; touching: boolean; a: SiteVector; b: SiteVector } | null = null;
  for (const shape of mover.shapes) {
    const only = obstacles.length === 1 ? obstacles[0] : null;
    const near = only ? clearance(shape, only) : nearestOf(shape, obstacles)?.clearance;
    if (near && (best === null || near.distanceM < best.distanceM)) best = near;
  }
  if (best === null) return [];
  return [
    {
      id: `${kind}/${mover.id}/${toId}`,
      kind,
      what: mover.what,
      toWhat,
      requiredM,
      distanceM: best.distanceM,
      touching: best.touching,
      a: best.a,
      b: best.b,
    },
  ];
}

/** The parts of a structure a load must keep off: all of it, or only its parapets while the load is above the surface it is to land on. */
function obstaclesTo(plan: Plan, load: HungLoad, structureId: string, solids: readonly Solid[]): readonly Solid[] {
  const structure = plan.scene.structures.find((s) => s.id === structureId);
  const body = solids[0];
  if (!structure || !body) return solids;
  const goals = [plan.scene.destination, plan.scene.casualty].flatMap((p) => (p ? [p.position] : []));
  const isLanding = goals.some(
    (p) => pointInPolygon(structure.outline, [p[0], p[1]]) && Math.abs(p[2] - structure.topZM) < 0.5,
  );
  const above = load.box.bounds.min[2] >= structure.topZM;
  return isLanding && above ? solids.slice(1) : solids;
}

/** A rope's last stretch to what it is made fast to off the vehicle is left out: there it must come near, m. Planning default, no source. */
const END_LEFT_OUT_M = 0.5;

/** A rope as it runs through the air, short of where it is held or made fast. */
function ropeInAir(line: RunningLine): readonly SiteVector[] {
  const points = line.nodes.map((n) => n.at);
  const last = points[points.length - 1];
  const before = points[points.length - 2];
  if (!last || !before) return points;
  const length = distance(before, last);
  return [
    ...points.slice(0, -1),
    lerp(before, last, Math.max(0, 1 - END_LEFT_OUT_M / Math.max(length, END_LEFT_OUT_M))),
  ];
}
