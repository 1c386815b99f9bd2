import { asSite, distance, heightOverGround, type InputProblem, poseAerial, type SiteVector } from "@gantline/engine";
import type { Holding, HungLoad, TravelCase } from "./evaluation.ts";
import { feelAerial } from "./feel-aerial.ts";
import { findProblems } from "./find-problems.ts";
import { amount, type Finding } from "./judge.ts";
import { measureMoving } from "./measure-clearances.ts";
import { placeLoad } from "./place-geometry.ts";
import type { RigOutcome } from "./rig/rig-state.ts";
import { runningLines } from "./rig/running-lines.ts";
import { type LoadSum, sumLoad } from "./rig/sum-load.ts";
import { MOVING_RULES, STANDING_RULES } from "./rules/all-rules.ts";
import { HELD_WITHIN_M } from "./rules/holding.ts";
import type { Plan } from "./schema/plan.ts";
import { siteGround } from "./site-ground.ts";
import type { Situation } from "./situation.ts";
import { solveRig } from "./solve-rig.ts";
import { type Stand, standAerial } from "./stand-aerial.ts";
import { tetherState } from "./tether-state.ts";

/**
 * Scene → stand → rig → solve: everything the rules judge.
 *
 * @param stood the stand of the same plan with the load elsewhere, where it is already known; a ladder that sags does not
 * stand still
 * @param mayStop the load can be stopped here, where friction can act either way: both ways of travel are worked whatever
 * the plan's motion, which then only says which comes first
 */
export function assess(
  plan: Plan,
  problems: readonly InputProblem[] = findProblems(plan),
  stood: Stand | null = null,
  mayStop = false,
): Situation {
  const sum = sumLoad(plan);
  const { device, place, pose, useSag } = plan.aerial;
  const known = useSag ? null : stood;
  const straight = known?.geometry.posed ?? poseAerial(device, place, pose);
  const { posed, laid, outcome, sagUnknown } = solveRig(plan, straight, sum, known?.laid);
  const stand = known ?? standAerial(plan, straight, posed, laid);
  const { geometry, rating } = stand;
  const state = outcome.ok ? outcome.state : null;
  const ropesN = state === null || laid.unweighed.length > 0 ? null : state.ropesAtYokeN;
  const load = hangLoad(plan, state?.yoke ?? asSite(plan.rig.load.positionM), sum, ropesN);
  const lines = state ? runningLines(plan, state, load.box.bounds.min[2]) : [];
  const cases = state === null ? [] : travelCases(plan.rig.load.motion, mayStop);
  const felt = Object.fromEntries(state ? cases.map((travel) => [travel, feelAerial(plan, stand, state, travel)]) : []);
  const clearances = [...stand.clearances, ...measureMoving(plan, geometry, load, lines)];
  const told =
    sagUnknown === null
      ? problems
      : [
          ...problems,
          {
            path: "aerial.useSag",
            got: "the ladder's own bending to move the tip",
            expected: `none of it: ${sagUnknown}`,
          },
        ];
  return {
    plan,
    problems: told,
    stand,
    geometry,
    load,
    sum,
    laid,
    state,
    holding: holdingOf(load, outcome),
    cases,
    lines,
    felt,
    rating,
    clearances,
    loadHeight: heightOverGround(load.box, siteGround(plan.scene)),
    tether: tetherState(state, geometry),
  };
}

const travelCases = (motion: Plan["rig"]["load"]["motion"], mayStop: boolean): readonly TravelCase[] =>
  motion !== "rest" && !mayStop ? [motion] : motion === "lower" ? ["lower", "raise"] : ["raise", "lower"];

/** What the rules find that look only at how the vehicle stands and what is rigged. */
export const judgeStanding = (situation: Situation): readonly Finding[] =>
  STANDING_RULES.flatMap((rule) => rule(situation));

/** What the rules find that look at the load where it is. */
export const judgeMoving = (situation: Situation): readonly Finding[] =>
  MOVING_RULES.flatMap((rule) => rule(situation));

/** What every rule finds. */
export const judgeAll = (situation: Situation): readonly Finding[] => [
  ...judgeStanding(situation),
  ...judgeMoving(situation),
];

function hangLoad(plan: Plan, yoke: SiteVector, sum: LoadSum, ropesN: number | null): HungLoad {
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
  };
}

function holdingOf(load: HungLoad, outcome: RigOutcome): Holding {
  if (!outcome.ok) return { state: "unsolved", code: outcome.code, where: outcome.where, says: [outcome.says] };
  const drift = distance(load.yoke, load.wanted);
  if (drift <= HELD_WITHIN_M) return { state: "held" };
  return {
    state: "drifts",
    goesTo: load.yoke,
    says: ["Nothing holds the load where it is wanted: it would go ", amount(drift, "length"), " away."],
  };
}
