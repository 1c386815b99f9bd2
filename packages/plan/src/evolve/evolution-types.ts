import type { InputProblem, SiteVector } from "@gantline/engine";
import type { Check, Status } from "../check.ts";
import type { LetOut } from "../evaluation.ts";
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
  /** Where the stage wants the yoke, and where it hangs, or stands where its load would go into the ground. */
  readonly wanted: SiteVector;
  readonly yoke: SiteVector;
  readonly holds: "held" | "drifts" | "unsolved";
  /**
   * Of the checks that change along the stage, of those that do not where they are over or unknown, and of what is wrong
   * with the stage then.
   */
  readonly worst: { readonly status: Status; readonly ratio: number | null; readonly checkId: string | null };
  /** What is wrong with the stage then: ids of its problems. */
  readonly problems: readonly string[];
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
  /** Of its check in the ledger, as `stage/raise/1`. */
  readonly id: string;
  readonly stage: number;
  readonly status: "over" | "unknown";
  readonly says: Phrase;
  readonly field: string;
  /** Where it is at its worst, or begins. */
  readonly when: When;
  /** The first and last share of the stage at which it is so. */
  readonly between: readonly [from: number, to: number];
  /** For a load that nothing holds on its way, at the worst: where it would go, and the pull that is missing where it is wanted, N. */
  readonly drift?: { readonly goesTo: SiteVector; readonly missingN: SiteVector | null };
}

/** How one rope's way changes while the empty ladder moves. */
export interface FreeRope {
  readonly lineId: string;
  readonly name: string;
  /** From start to end, m; positive needs more rope. */
  readonly changeM: number;
  /** Most rope out over that at the start, at any moment of the move, m; at least 0. */
  readonly mostM: number;
  /** Most rope to take in below that at the start, m; at least 0. */
  readonly leastM: number;
}

/** How one main line runs over a stage, m: both where it must be let out at one moment and hauled at another. */
export interface LineRun {
  readonly lineId: string;
  readonly name: string;
  readonly takenInM: number;
  readonly letOutM: number;
}

/**
 * Work over a stage, J: what hauling and hands put in, what the load gained, what sheaves took and what the stretch of the ropes
 * holds. Ropes of unknown stretch are taken as unstretched.
 */
export interface StageWork {
  readonly putInJ: number;
  readonly gainedJ: number;
  readonly frictionJ: number;
  readonly strainJ: number;
}

/** A check whose peak was not closed in on: as high as it was found in the stage, and as high as it could still be. */
export interface Unsettled {
  readonly checkId: string;
  readonly found: number;
  readonly couldBe: number;
}

/** What letting one line go would do at its worst moment of a stage. */
export interface StageLetOut extends LetOut {
  readonly when: When;
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
  /** For a stage that moves the ladder: how the way of each rope changes. */
  readonly freeRope: readonly FreeRope[];
  /** How each main line runs; empty where not solved throughout. */
  readonly runs: readonly LineRun[];
  /** Null where not solved throughout, or where the load is not held on all of its way. */
  readonly work: StageWork | null;
  /** What letting a tagline or the tether go would do, each at its worst moment; as checks beside the ledger too. */
  readonly letOuts: readonly StageLetOut[];
  /** Checks whose worst may be more than half a per cent higher than found: the looks for peaks were used up. */
  readonly unsettled: readonly Unsettled[];
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
