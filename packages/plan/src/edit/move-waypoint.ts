import { asSite, type SiteVector } from "@gantline/engine";
import type { Plan } from "../schema/plan.ts";

type Point = [number, number, number];

/**
 * The plan with one place of the load's way moved: `start`, or `waypoint:<stage>:<point>`, both counted from 0.
 * An id that names no such place returns the same plan.
 */
export function moveWaypoint(plan: Plan, handleId: string, move: (from: SiteVector) => Point): Plan {
  const { evolution } = plan;
  if (handleId === "start") {
    return { ...plan, evolution: { ...evolution, startM: move(asSite(evolution.startM)) } };
  }
  const [, stageAt, pointAt] = /^waypoint:(\d+):(\d+)$/.exec(handleId)?.map(Number) ?? [];
  const stage = evolution.stages[stageAt ?? -1];
  const from = stage?.path[pointAt ?? -1];
  if (stage === undefined || from === undefined) return plan;
  const moved = { ...stage, path: stage.path.map((one, index) => (index === pointAt ? move(asSite(from)) : one)) };
  const stages = evolution.stages.map((one, index) => (index === stageAt ? moved : one));
  return { ...plan, evolution: { ...evolution, stages } };
}
