import type { InputProblem, SiteVector } from "@gantline/engine";
import type { Check, Status } from "../check.ts";
import type { Stage } from "../schema/evolution.ts";
import type { Phrase, Quantity } from "../units/quantity.ts";

/** A moment of the evolution: which stage (from 0), and how far along its path, 0 to 1. */
export interface When {
  readonly stage: number;
  readonly along: number;
}

/** A check at its worst over the evolution, and when that is. */
export interface TimedCheck extends Check {
  readonly when: When | null;
}

/** One moment as the sweep solved it. */
export interface Moment {
  readonly when: When;
  /** 0 at the start of the first stage, 1 at the end of the last; every stage takes the same width. */
  readonly at: number;
  /** Where the stage wants the yoke, and where it hangs. */
  readonly wanted: SiteVector;
  readonly yoke: SiteVector;
  readonly holds: "held" | "drifts" | "unsolved";
  /** Of the checks that change along the stage, and of those that do not where they are over or unknown. */
  readonly worst: { readonly status: Status; readonly ratio: number | null; readonly checkId: string | null };
}

/** A figure over the whole evolution: a force, a length, a clearance, or the ratio of a check. */
export interface Series {
  /** As `ratio/tip-rating/resultant`, `tension/main-a`, `force/tip`, `clearance/load/load/flood-wall`, `length/tether`. */
  readonly id: string;
  readonly label: string;
  readonly quantity: Quantity;
  /** One value for each moment; null where it is not known or does not apply. */
  readonly values: readonly (number | null)[];
}

/** Something wrong with a stage, said in the stage and in the ledger; the rest of the evolution is still worked. */
export interface StageProblem {
  readonly stage: number;
  readonly says: Phrase;
  readonly field: string;
}

export interface StageResult {
  readonly stage: Stage;
  /** Where the yoke is at the start and at the end. */
  readonly from: SiteVector;
  readonly to: SiteVector;
  /** Length of the yoke's way, m. */
  readonly pathM: number;
  /** Indices of its first and last moment. */
  readonly moments: readonly [first: number, last: number];
  readonly worst: Moment["worst"] & { readonly when: When };
  readonly problems: readonly StageProblem[];
  /** For a stage that moves the ladder: change of each line's path from start to end, m; positive needs more rope. */
  readonly freeRope: readonly { readonly lineId: string; readonly name: string; readonly changeM: number }[];
  /** Work over the stage, J: what hauling and hands put in, what the load gained, what friction took. Null where not solved throughout. */
  readonly work: { readonly putInJ: number; readonly gainedJ: number; readonly frictionJ: number } | null;
}

/** The whole evolution, swept. */
export interface Evolution {
  readonly problems: readonly InputProblem[];
  readonly stages: readonly StageResult[];
  /** In order. */
  readonly moments: readonly Moment[];
  /** Every check at its worst moment, worst first. */
  readonly ledger: readonly TimedCheck[];
  readonly worst: {
    readonly status: Status;
    readonly ratio: number | null;
    readonly checkId: string | null;
    readonly when: When | null;
  };
  /** Figures that can be drawn as curves. */
  readonly series: readonly Series[];
}
