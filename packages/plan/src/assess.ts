import { heightOverGround, type InputProblem } from "@gantline/engine";
import { feelAerial } from "./feel-aerial.ts";
import { findProblems } from "./find-problems.ts";
import type { Finding } from "./judge.ts";
import { measureMoving } from "./measure-clearances.ts";
import { runningLines } from "./rig/running-lines.ts";
import { MOVING_RULES, STANDING_RULES } from "./rules/all-rules.ts";
import type { Plan } from "./schema/plan.ts";
import { siteGround } from "./site-ground.ts";
import type { Situation } from "./situation.ts";
import { solvePlan } from "./solve-plan.ts";
import type { Stand } from "./stand-aerial.ts";
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
  const solved = solvePlan(plan, stood, mayStop);
  const { stand, geometry, load, state, cases, sagUnknown } = solved;
  const lines = state ? runningLines(plan, state, load.box.bounds.min[2]) : [];
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
    ...solved,
    problems: told,
    lines,
    felt,
    clearances,
    loadHeight: heightOverGround(load.box, siteGround(plan.scene)),
    tether: tetherState(state, geometry),
  };
}

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
