import {
  clearance,
  ladderSolid,
  platformSolid,
  pointInSolid,
  polyline,
  poseAerial,
  type Solid,
  site,
  vehicleSolid,
} from "@gantline/engine";
import type { Plan } from "../schema/plan.ts";
import { IN_GROUND_M } from "../site-ground.ts";
import type { Situation } from "../situation.ts";
import type { AddFault } from "./fault.ts";
import { poseBefore, stageWay } from "./moment-plan.ts";

/**
 * Does the way of an empty yoke lead through a structure, the ladder or the vehicle? Of the yoke alone, as a point that lies so
 * little above what it is set down on: nothing is solved for it. A way point inside a structure is told as such.
 */
export function emptyYokeProblems(
  plan: Plan,
  stageIndex: number,
  structures: Situation["geometry"]["structures"],
  add: AddFault,
): void {
  const stage = plan.evolution.stages[stageIndex];
  if (!stage || stage.aboard.length > 0 || stage.path.length === 0 || stage.action === "moveLadder") return;
  const way = stageWay(plan, stageIndex);
  const above = way.map(([x, y, z]) => site(x, y, z + IN_GROUND_M));
  const line = polyline(above);
  const { device, place } = plan.aerial;
  const posed = poseAerial(device, place, poseBefore(plan, stageIndex));
  const platform = platformSolid(device, posed);
  const things: { readonly name: string; readonly solids: readonly Solid[] }[] = [
    ...structures.filter((s) => !s.solids.some((solid) => above.some((p) => pointInSolid(solid, p)))),
    { name: "the ladder", solids: platform ? [ladderSolid(device, posed), platform] : [ladderSolid(device, posed)] },
    { name: "the vehicle", solids: [vehicleSolid(device, place)] },
  ];
  for (const { name, solids } of things)
    if (solids.some((solid) => clearance(line, solid).touching))
      add("over", "path", [`The way of the empty yoke leads through ${name}.`]);
}
