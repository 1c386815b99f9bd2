import { asSite, distance, lerp, poseAerial, riggingPointAt, type SiteVector } from "@gantline/engine";
import { layLines } from "../rig/lay-lines.ts";
import type { Plan } from "../schema/plan.ts";
import type { FreeRope } from "./evolution-types.ts";
import { mainsInStage, useInStage } from "./lines-in-stage.ts";
import { momentPlan, stageStart, wayLengthM } from "./moment-plan.ts";

/** Places of the move at which the ways are measured. */
const STEPS = 40;

/**
 * How much rope each line must be free to take or give while the empty ladder moves: the change of its way from the yoke,
 * where it lies, m; at the end, and the most at any moment of the move.
 *
 * A main line goes over its rigging point to the brake; a tagline to the hands, which do not move; all ropes of the tether's
 * tackle to where its pulley hangs on the returning ropes, nearest the yoke. Lines off the load are left out.
 */
export function freeRope(plan: Plan, stageIndex: number): readonly FreeRope[] {
  const stage = plan.evolution.stages[stageIndex];
  if (!stage?.pose) return [];
  const { taglines, tether } = plan.rig;
  const on = new Set([
    ...mainsInStage(plan, stage).map((l) => l.id),
    ...[...taglines, ...(tether ? [tether] : [])].flatMap((l) => (useInStage(stage, l).on ? [l.id] : [])),
  ]);
  const yoke = stageStart(plan, stageIndex);
  const ways = Array.from({ length: STEPS + 1 }, (_, k) =>
    waysAt({ ...plan, aerial: momentPlan(plan, { stage: stageIndex, along: k / STEPS }).aerial }, yoke),
  );
  return (ways[0] ?? []).flatMap(({ id, name, lengthM }, i) => {
    if (!on.has(id)) return [];
    const changes = ways.map((way) => (way[i]?.lengthM ?? lengthM) - lengthM);
    return [
      {
        lineId: id,
        name,
        changeM: changes.at(-1) ?? 0,
        mostM: Math.max(...changes, 0),
        leastM: Math.max(...changes.map((c) => -c), 0),
      },
    ];
  });
}

/** The way of every rope with the ladder as it is posed, m. */
function waysAt(plan: Plan, yoke: SiteVector) {
  const { device, place, pose } = plan.aerial;
  const posed = poseAerial(device, place, pose);
  const { mains, tether } = layLines(plan, posed);
  const ways = mains.map((m) => ({
    id: m.line.id,
    name: m.line.name,
    lengthM: wayLengthM([yoke, riggingPointAt(posed, m.point), ...m.anchors.map((a) => a.at)]),
  }));
  for (const { id, name, handler } of plan.rig.taglines)
    ways.push({ id, name, lengthM: distance(yoke, asSite(handler)) });
  const ridden = mains.filter((m) => tether?.line.rides.includes(m.line.id));
  if (tether && ridden.length > 0) {
    const feet = ridden.map((m) => nearestTo(yoke, m.pointAt, m.anchors[0]?.at ?? m.pointAt));
    const lengthM = feet.reduce((sum, foot) => sum + distance(yoke, foot), 0) / feet.length;
    ways.push({ id: tether.line.id, name: tether.line.name, lengthM: tether.line.parts * lengthM });
  }
  return ways;
}

/** The place of a straight stretch nearest to a point. */
function nearestTo(point: SiteVector, a: SiteVector, b: SiteVector): SiteVector {
  const squared = distance(a, b) ** 2;
  const dot = point.reduce((sum, p, i) => sum + (p - (a[i] ?? 0)) * ((b[i] ?? 0) - (a[i] ?? 0)), 0);
  return squared > 0 ? lerp(a, b, Math.min(1, Math.max(0, dot / squared))) : a;
}
