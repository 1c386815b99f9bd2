import {
  asSite,
  clearance,
  distance,
  ladderSolid,
  poseAerial,
  type SiteVector,
  TOUCH_M,
  type Utilisations,
  utilisations,
} from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import { pointForces } from "../feel-aerial.ts";
import { placeLoad } from "../place-geometry.ts";
import type { RigState } from "../rig/rig-state.ts";
import { sumLoad } from "../rig/sum-load.ts";
import { decidesAtTip } from "../rules/tip-rating.ts";
import type { Plan } from "../schema/plan.ts";
import { solveRig } from "../solve-rig.ts";

/** A rated load to measure against, N: use of a rating is proportional to it. */
const MEASURE_N = 1000;
/** A rig settles as closely as this here, m: the demand is then right to a thousandth, and found in half the rounds. */
const SETTLED_WITHIN_M = 1e-4;

/** N; `null`: nothing holds the load there. */
export type Demand = number | "unknown" | null;

/** How single positions are held to be held. */
export interface HeldBy {
  /** A load that would go farther than this from where it is wanted is not held, m. */
  readonly awayM: number;
  /** The tackle of a tether may be too short or too long by this, m; `null`: it is not looked at, nor is the ladder beside the load. */
  readonly slackM: number | null;
}

/** How great a rated tip load single positions ask for; `null` where the load is not held there. */
export function demandSolver({ evolution, policy, rig }: Plan, { awayM, slackM }: HeldBy): (position: Plan) => Demand {
  // A staged plan is judged at every moment for both ways of travel, as by the sweep: friction can act either way where it stops.
  const bothWays = evolution.stages.length > 0 || rig.load.motion === "rest";
  const counted = USES.filter((kind) => decidesAtTip(kind, policy));
  const clearM = Math.max(TOUCH_M, policy.loadToLadderClearanceM.value ?? 0);
  return (position) => {
    const { device, place, pose } = position.aerial;
    const straight = poseAerial(device, place, pose);
    const { posed, laid, outcome } = solveRig(position, straight, sumLoad(position), null, SETTLED_WITHIN_M);
    if (!outcome.ok) return outcome.code === "unknown" ? "unknown" : null;
    const { load } = position.rig;
    const { state } = outcome;
    if (distance(state.yoke, asSite(load.positionM)) > awayM) return null;
    if (slackM !== null) {
      if (state.tether && !isWithinTackle(state.tether, state.yoke, slackM)) return null;
      const { box } = placeLoad(position, state.yoke);
      if (clearance(box, ladderSolid(device, posed)).distanceM < clearM - slackM) return null;
    }
    if (laid.mains.some((m) => m.efficiencies[0] === null) || laid.unweighed.length > 0) return "unknown";
    const cases: readonly TravelCase[] = bothWays || load.motion === "rest" ? ["raise", "lower"] : [load.motion];
    return Math.max(
      ...cases.flatMap((travel) => {
        const forces = pointForces(state, travel);
        const uses = utilisations(device, posed, forces, { ratedTipLoadN: MEASURE_N, reason: "" });
        return counted.map((kind) => (uses[kind].ratio ?? 0) * MEASURE_N);
      }),
    );
  };
}

/** Can the tackle be as long as it would have to be, to within a slack, its pulley riding free? */
function isWithinTackle(
  { laid: { line }, pulleyAt, against }: NonNullable<RigState["tether"]>,
  yoke: SiteVector,
  slackM: number,
): boolean {
  const lengthM = distance(yoke, pulleyAt);
  return against === null && lengthM >= line.lengthMinM - slackM && lengthM <= line.lengthMaxM + slackM;
}

const USES: readonly (keyof Utilisations)[] = ["resultant", "bending", "compression"];
