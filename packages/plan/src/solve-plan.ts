import { asSite, distance, poseAerial, type TipRatingAnswer } from "@gantline/engine";
import type { Geometry, Holding, HungLoad, TravelCase } from "./evaluation.ts";
import { amount } from "./judge.ts";
import { placeLoad } from "./place-geometry.ts";
import { HELD_WITHIN_M } from "./rig/held-there.ts";
import type { LaidRig } from "./rig/lay-lines.ts";
import type { RigOutcome, RigState } from "./rig/rig-state.ts";
import { type LoadSum, sumLoad } from "./rig/sum-load.ts";
import type { Plan } from "./schema/plan.ts";
import { solveRig } from "./solve-rig.ts";
import { type Stand, standAerial } from "./stand-aerial.ts";

/** A plan with its forces in balance, before anything about it is measured: all that is needed to follow what moves when a line goes. */
export interface SolvedPlan {
  readonly plan: Plan;
  readonly stand: Stand;
  /** As `stand` has it. */
  readonly geometry: Geometry;
  readonly rating: TipRatingAnswer;
  readonly load: HungLoad;
  readonly sum: LoadSum;
  readonly laid: LaidRig;
  /** null: nothing could be solved. */
  readonly state: RigState | null;
  readonly holding: Holding;
  /** Ways of travel that are worked out, the plan's own first; none where nothing could be solved. */
  readonly cases: readonly TravelCase[];
  /** Why the ladder stands straight though the plan has it sag; null: it does not, or none is asked for. */
  readonly sagUnknown: string | null;
}

/**
 * Scene → stand → rig → solve.
 *
 * @param stood the stand of the same plan with the load elsewhere, where it is already known; a ladder that sags does not
 * stand still
 * @param mayStop the load can be stopped here, where friction can act either way: both ways of travel are worked whatever
 * the plan's motion, which then only says which comes first
 */
export function solvePlan(plan: Plan, stood: Stand | null = null, mayStop = false): SolvedPlan {
  const sum = sumLoad(plan);
  const { device, place, pose, useSag } = plan.aerial;
  const known = useSag ? null : stood;
  const straight = known?.geometry.posed ?? poseAerial(device, place, pose);
  const { posed, laid, outcome, sagUnknown } = solveRig(plan, straight, sum, known?.laid);
  const stand = known ?? standAerial(plan, straight, posed, laid);
  const { geometry, rating } = stand;
  const state = outcome.ok ? outcome.state : null;
  const ropesN = state === null || laid.unweighed.length > 0 ? null : state.ropesAtYokeN;
  const load = hangLoad(plan, state, sum, ropesN);
  const cases = state === null ? [] : travelCases(plan.rig.load.motion, mayStop);
  return {
    plan,
    stand,
    geometry,
    rating,
    load,
    sum,
    laid,
    state,
    holding: holdingOf(load, outcome),
    cases,
    sagUnknown,
  };
}

const travelCases = (motion: Plan["rig"]["load"]["motion"], mayStop: boolean): readonly TravelCase[] =>
  motion !== "rest" && !mayStop ? [motion] : motion === "lower" ? ["lower", "raise"] : ["raise", "lower"];

function hangLoad(plan: Plan, state: RigState | null, sum: LoadSum, ropesN: number | null): HungLoad {
  const yoke = state?.yoke ?? asSite(plan.rig.load.positionM);
  const { massKg, weightN, persons, windN } = sum;
  return {
    wanted: asSite(plan.rig.load.positionM),
    yoke,
    ...placeLoad(plan, yoke),
    massKg,
    persons,
    weightN,
    ropesN,
    windN,
    groundN: state?.groundN ?? null,
  };
}

function holdingOf(load: HungLoad, outcome: RigOutcome): Holding {
  if (!outcome.ok) return { state: "unsolved", code: outcome.code, where: outcome.where, says: [outcome.says] };
  const drift = distance(load.yoke, load.wanted);
  if (drift <= HELD_WITHIN_M) return { state: "held" };
  return {
    state: "drifts",
    goesTo: load.yoke,
    says: [
      "Nothing holds the load where it is wanted: it would go ",
      amount(drift, "length"),
      outcome.state.groundN ? " away, and come down on what is below." : " away.",
    ],
  };
}
