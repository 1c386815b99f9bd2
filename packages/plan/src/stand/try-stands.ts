import { assessStand, poseOfStand, type StandCandidate, type StandQuestion, tipHeights } from "@gantline/engine";
import type { Plan } from "../schema/plan.ts";
import { facingAsNow } from "./as-now.ts";
import { type MomentJudge, momentJudge } from "./judge-moments.ts";
import { choiceOf } from "./stand-candidates.ts";
import { aspectCost } from "./stand-front.ts";
import type { FoundStands, StandAspect, StandChoice, StandEntry, StandFigures } from "./stand-types.ts";

/** A stand that holds at the moments looked at. */
export interface TriedStand {
  readonly candidate: PlacedCandidate;
  readonly choice: StandChoice;
  readonly figures: StandFigures;
}

/** Tries stands of one vehicle: first by the search's exact checks, which take little, then at the moments that matter. */
export interface StandTrier {
  readonly judge: MomentJudge;
  /** Faces as nearly as now; `null` where vehicle, ladder or another aim rules it out. */
  readonly place: (at: Spot) => { readonly candidate: PlacedCandidate; readonly choice: StandChoice } | null;
  /** What goes with the cost by an aspect and takes next to nothing to know: less is likely better. */
  readonly likely: (candidate: StandCandidate, aspect: StandAspect) => number;
  /** `null` where something rules it out, or where it cannot be better than `below` by the aspect. */
  readonly try: (at: Spot, aspect?: StandAspect, below?: number) => TriedStand | null;
}

export type Spot = Pick<StandCandidate, "turntable" | "point"> & {
  /** The vehicle turned by so much from facing as now, clockwise, rad; left out: not at all. */
  readonly turnRad?: number;
};

type PlacedCandidate = StandCandidate & Spot;

/** Clearance counts as far as a sweep tells it when single stands are compared, m. */
const CLEARANCE_COUNTED_M = 50;
/** The search's use of the rating is off by less than this share. */
const USED_WITHIN = 0.1;

/** @param found one vehicle, for every aim: the first is where the load is to hang, the others are served from the same place */
export function standTrier(plan: Plan, found: readonly FoundStands[]): StandTrier | null {
  const [first, ...others] = found;
  if (!first) return null;
  const { asked } = first;
  const { question } = asked;
  const wide: StandQuestion = { ...question, clearanceCountedM: CLEARANCE_COUNTED_M };
  const judge = momentJudge(plan);

  function place({ turntable, point, turnRad = 0 }: Spot) {
    const candidate = facingAsNow(plan, question, { turntable, headingRad: 0, point }, turnRad);
    const choice = candidate && choiceOf(asked, candidate);
    if (!candidate || !choice || !others.every((other) => poseOver(other, candidate) !== null)) return null;
    return { candidate: { ...candidate, turnRad }, choice };
  }

  function likely(candidate: StandCandidate, aspect: StandAspect): number {
    const { steepest, shortest } = assessStand(question, candidate).figures;
    if (steepest === null || shortest === null) return Number.MAX_VALUE;
    // A flatter ladder turns the ropes less; a lower tip and a shorter ladder need less rope.
    if (aspect === "lowestTip") return steepest;
    return aspect === "leastRope" ? shortest + candidate.point[2] : leastCost(candidate, aspect);
  }

  /** No less than what a sweep can make of it. */
  function leastCost(candidate: StandCandidate, aspect: StandAspect): number {
    const { steepest, shortest, leastUsed, clearest } = assessStand(wide, candidate).figures;
    const known = (x: number | null, cost: (x: number) => number): number => (x === null ? -Number.MAX_VALUE : cost(x));
    switch (aspect) {
      case "steepest":
        return known(steepest, (x) => -x);
      case "shortest":
        return known(shortest, (x) => x);
      case "clearest":
        return known(clearest, (x) => -x);
      case "leastUsed":
        return known(leastUsed, (x) => x * (1 - USED_WITHIN));
      default:
        return -Number.MAX_VALUE;
    }
  }

  return {
    judge,
    place,
    likely,
    try(at, aspect, below = Number.MAX_VALUE) {
      const placed = place(at);
      if (placed === null) return null;
      if (aspect !== undefined && leastCost(placed.candidate, aspect) >= below) return null;
      const figures = judge.figures(placed.choice, aspect && { aspect, below });
      if (figures === null || (aspect !== undefined && aspectCost(figures, aspect) >= below)) return null;
      return { ...placed, figures };
    },
  };
}

/** From the same place, over another aim: the shortest pose that is not rejected. */
export function poseOver(
  { asked }: FoundStands,
  { turntable, headingRad }: StandCandidate,
): StandEntry["alsoServes"][number] | null {
  const { question, aim } = asked;
  const poses = [...tipHeights(question.steps.tipHeights, question.target)].flatMap((z) => {
    const candidate: StandCandidate = { turntable, headingRad, point: [aim.xM, aim.yM, z] };
    if (assessStand(question, candidate).status === "rejected") return [];
    return poseOfStand(question, candidate)?.pose ?? [];
  });
  const [shortest, ...rest] = poses;
  return shortest === undefined
    ? null
    : { aim, pose: rest.reduce((a, b) => (b.lengthM < a.lengthM ? b : a), shortest) };
}
