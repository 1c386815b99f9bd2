import { poseAerial, riggingPointAt, type SiteVector } from "@gantline/engine";
import { layLines } from "../rig/lay-lines.ts";
import type { Plan } from "../schema/plan.ts";
import type { StageResult } from "./evolution-types.ts";
import { poseBefore, stageStart, wayLengthM } from "./moment-plan.ts";

/**
 * How much rope each main line must be free to take or give while the empty ladder moves: the change of its path from the
 * yoke, where it lies, over its rigging point to the brake, m. Positive needs more rope.
 */
export function freeRope(plan: Plan, stageIndex: number): StageResult["freeRope"] {
  const stage = plan.evolution.stages[stageIndex];
  if (!stage?.pose) return [];
  const yoke = stageStart(plan, stageIndex);
  const before = pathLengths(plan, poseBefore(plan, stageIndex), yoke);
  const after = pathLengths(plan, stage.pose, yoke);
  return before.map(({ id, name, lengthM }, i) => ({
    lineId: id,
    name,
    changeM: (after[i]?.lengthM ?? lengthM) - lengthM,
  }));
}

function pathLengths(plan: Plan, pose: Plan["aerial"]["pose"], yoke: SiteVector) {
  const posed = poseAerial(plan.aerial.device, plan.aerial.place, pose);
  return layLines(plan, posed).mains.map((m) => ({
    id: m.line.id,
    name: m.line.name,
    lengthM: wayLengthM([yoke, riggingPointAt(posed, m.point), ...m.anchors.map((a) => a.at)]),
  }));
}
