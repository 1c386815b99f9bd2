import { clearance, distance, dot, type SiteVector, sphere, subtract, unit } from "@gantline/engine";
import type { Geometry, TetherState } from "./evaluation.ts";
import type { RigState } from "./rig/rig-state.ts";

/** Half the room the riding pulley takes up, m. Planning default, no source. */
const PULLEY_RADIUS_M = 0.1;

/** How the skate tether works: how long, how hard, where its pulley rides and what it comes near. */
export function tetherState(state: RigState | null, geometry: Geometry): TetherState | null {
  if (state === null || state.tether === null) return null;
  const { laid, pulleyAt, tensionN, against } = state.tether;
  const { line } = laid;
  const pulleys = [pulleyAt, ...(state.tether.ridesAt ?? [])].map((at) => sphere(at, PULLEY_RADIUS_M));
  const ladder = geometry.platform ? [geometry.ladder, geometry.platform] : [geometry.ladder];
  const pull: SiteVector = unit(subtract(state.yoke, pulleyAt));
  return {
    id: line.id,
    name: line.name,
    pulleyAt,
    tensionN,
    lengthM: distance(state.yoke, pulleyAt),
    lengthMinM: line.lengthMinM,
    lengthMaxM: line.lengthMaxM,
    against,
    ladderClearM: Math.min(...pulleys.flatMap((pulley) => ladder.map((solid) => clearance(pulley, solid).distanceM))),
    alongLadderN: tensionN * dot(pull, geometry.posed.axes.axial),
  };
}
