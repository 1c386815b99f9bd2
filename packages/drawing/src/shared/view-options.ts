import type { Check, UnitSystem, When } from "@gantline/plan";
import type { SweptStage } from "./swept-stages.ts";

/** What a section and a plan are drawn with. */
export interface ViewOptions {
  readonly system: UnitSystem;
  /** The moment of the evolution that the plan shows: draws the way of all stages, and hands out the way points of its stage. */
  readonly evolution?: When;
  /** The line whose letting go is to be drawn as the swing it sets off. */
  readonly letOut?: string | null;
  /** The one check that is asked about: its place is ringed and named. */
  readonly marked?: Check | null;
  /** Stages whose swept space is to be drawn under everything: one, or all of `sweptStages`. */
  readonly swept?: readonly SweptStage[];
}
