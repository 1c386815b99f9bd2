import type { HeightOverGround, InputProblem } from "@gantline/engine";
import type { Clearance, FeltForces, RunningLine, TetherState, TravelCase } from "./evaluation.ts";
import type { SolvedPlan } from "./solve-plan.ts";

/** Everything known about a plan once its statics are solved: what the rules judge. */
export interface Situation extends SolvedPlan {
  readonly problems: readonly InputProblem[];
  readonly lines: readonly RunningLine[];
  readonly felt: Readonly<Partial<Record<TravelCase, FeltForces>>>;
  readonly clearances: readonly Clearance[];
  /** The load over the ground. */
  readonly loadHeight: HeightOverGround;
  readonly tether: TetherState | null;
}
