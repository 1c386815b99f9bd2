import { heightOverGround } from "@gantline/engine";
import { insideOutline } from "../edit/surface-below.ts";
import { placeLoad } from "../place-geometry.ts";
import type { Plan } from "../schema/plan.ts";
import { siteGround } from "../site-ground.ts";
import type { AddFault } from "./fault.ts";
import { momentPlan, stageStart } from "./moment-plan.ts";

/** From no higher can people and loads leave the ropes, m. Planning default, no source. */
const STEP_OFF_M = 0.5;

/** What was aboard in the stage before and is no longer must have been set down on something. */
export function leavingProblems(plan: Plan, stageIndex: number, add: AddFault): void {
  const { stages } = plan.evolution;
  const [before, stage] = [stages[stageIndex - 1], stages[stageIndex]];
  if (!before || !stage) return;
  const leaving = plan.rig.load.parts.filter((p) => before.aboard.includes(p.id) && !stage.aboard.includes(p.id));
  if (leaving.length === 0) return;
  const heightM = heightOfLoad(plan, stageIndex);
  if (heightM <= STEP_OFF_M) return;
  const names = leaving.map((p) => p.name).join(" and ");
  add(
    "over",
    "aboard",
    [
      `${names}: off the ropes from here on, but the load still hangs `,
      { value: heightM, quantity: "length" },
      " above what is below it. Set it down first, or keep it aboard.",
    ],
    0,
  );
}

/** From the underside of the load to the roof below its middle, else to the ground below it, where a stage begins, m. */
function heightOfLoad(plan: Plan, stageIndex: number): number {
  const yoke = stageStart(plan, stageIndex);
  const { box } = placeLoad(momentPlan(plan, { stage: stageIndex - 1, along: 1 }), yoke);
  const bottomZM = box.bounds.min[2];
  const tops = plan.scene.structures.flatMap((s) =>
    insideOutline(s.outline, [yoke[0], yoke[1]]) && s.topZM <= bottomZM + STEP_OFF_M ? [bottomZM - s.topZM] : [],
  );
  return Math.min(...tops, heightOverGround(box, siteGround(plan.scene)).heightM);
}
