import type { When } from "../evolve/evolution-types.ts";
import type { Plan } from "../schema/plan.ts";

type Pose = Plan["aerial"]["pose"];

/**
 * Where is the ladder's pose at a moment written, and how is it changed there? Before the first stage that moves the
 * ladder it is the stand's own; after one, that stage's. Null while the ladder is on its way: no one pose is shown then.
 */
export function poseAt(plan: Plan, when: When): { readonly with: (pose: Pose) => Plan } | null {
  const { stages } = plan.evolution;
  const moves = (index: number): boolean => stages[index]?.action === "moveLadder" && stages[index].pose !== null;
  if (moves(when.stage) && when.along > 0 && when.along < 1) return null;
  const last = moves(when.stage) && when.along === 1 ? when.stage : when.stage - 1;
  for (let index = Math.min(last, stages.length - 1); index >= 0; index--) {
    if (!moves(index)) continue;
    return {
      with: (pose) => ({
        ...plan,
        evolution: { ...plan.evolution, stages: stages.map((one, at) => (at === index ? { ...one, pose } : one)) },
      }),
    };
  }
  return { with: (pose) => ({ ...plan, aerial: { ...plan.aerial, pose } }) };
}
