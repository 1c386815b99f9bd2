import type { HeightOverGround, InputProblem, TipRatingAnswer } from "@gantline/engine";
import type {
  Clearance,
  FeltForces,
  Geometry,
  Holding,
  HungLoad,
  RunningLine,
  TetherState,
  TravelCase,
} from "./evaluation.ts";
import type { LaidRig } from "./rig/lay-lines.ts";
import type { RigState } from "./rig/rig-state.ts";
import type { LoadSum } from "./rig/sum-load.ts";
import type { Plan } from "./schema/plan.ts";
import type { Stand } from "./stand-aerial.ts";

/** Everything known about a plan once its statics are solved: what the rules judge. */
export interface Situation {
  readonly plan: Plan;
  readonly problems: readonly InputProblem[];
  readonly stand: Stand;
  /** As `stand` has it. */
  readonly geometry: Geometry;
  readonly load: HungLoad;
  readonly sum: LoadSum;
  readonly laid: LaidRig;
  /** null: nothing could be solved. */
  readonly state: RigState | null;
  readonly holding: Holding;
  readonly cases: readonly TravelCase[];
  readonly lines: readonly RunningLine[];
  readonly felt: Readonly<Partial<Record<TravelCase, FeltForces>>>;
  readonly rating: TipRatingAnswer;
  readonly clearances: readonly Clearance[];
  /** The load over the ground. */
  readonly loadHeight: HeightOverGround;
  readonly tether: TetherState | null;
}
