import { assessStand, poseOfStand, type StandCandidate, tipHeights } from "@gantline/engine";
import type { Plan } from "../schema/plan.ts";
import { facingAsNow } from "./as-now.ts";
import { type CandidateStand, choiceOf, standCandidates } from "./stand-candidates.ts";
import { aspectCost, bestFirst, markFront } from "./stand-front.ts";
import { type FoundStands, STAND_ASPECTS, type StandAspect, type StandEntry } from "./stand-types.ts";
import { sweepStand } from "./sweep-stand.ts";
import { withStand } from "./with-stand.ts";

export interface ShortListOptions {
  /** How many stands are swept at most, over all vehicles; 14 unless said. */
  readonly most?: number;
  /** Asked before each sweep (each takes some tenths of a second); true ends it. */
  readonly cancelled?: () => boolean;
  /** Told of each stand as it is swept, before the front is known. */
  readonly onSwept?: (entry: Omit<StandEntry, "inFront">) => void;
}

/** Stands swept unless said. */
const MOST = 14;
/** Of these, the share that the search's own best get; the rest goes to what lies between those that fit and those that do not. */
const FIRST_SHARE = 0.75;
/** Halvings between a stand that fits and a better one that does not, by each aspect. */
const HALVINGS = 2;

type Entry = Omit<StandEntry, "inFront">;

/**
 * The best stands of a search, each swept through the plan's whole evolution with every check, with the front of trade-offs.
 *
 * First the search's best by each aspect (`standCandidates`), vehicle by vehicle in turn. Each is taken into the plan and
 * the whole evolution worked: ladder, package drawn in, ropes, power lines, rope length, all that the ledger judges. Where
 * the best by an aspect fails and another fits, stands between the two are swept. What fails is kept with the check that
 * governs. Best first. Returns `null` if cancelled.
 *
 * @param found every vehicle and every aim; of several aims the first is swept, the others are served from the same place
 */
export function standShortList(
  plan: Plan,
  found: readonly FoundStands[],
  { most = MOST, cancelled, onSwept }: ShortListOptions = {},
): readonly StandEntry[] | null {
  const swept: { readonly one: CandidateStand; readonly entry: Entry }[] = [];
  const sweep = (one: CandidateStand, others: readonly FoundStands[]): boolean => {
    if (cancelled?.()) return false;
    const entry = sweptEntry(plan, one, others);
    swept.push({ one, entry });
    onSwept?.(entry);
    return true;
  };
  const vehicles = byVehicle(found);
  const lists = vehicles.map((own) => ({ others: own.slice(1), candidates: standCandidates(plan, own) }));
  const longest = Math.max(0, ...lists.map((l) => l.candidates.length));
  for (let turn = 0; turn < longest; turn++) {
    for (const { others, candidates } of lists) {
      const one = candidates[turn];
      if (one && swept.length < Math.ceil(most * FIRST_SHARE) && !sweep(one, others)) return null;
    }
  }
  for (const aspect of STAND_ASPECTS) {
    for (const own of vehicles) {
      const key = own[0]?.asked.question.vehicleKey;
      for (let k = 0; k < HALVINGS && swept.length < most; k++) {
        const one = between(
          plan,
          swept.filter((s) => s.one.asked.question.vehicleKey === key),
          aspect,
        );
        if (one === null) break;
        if (!sweep(one, own.slice(1))) return null;
      }
    }
  }
  return [...markFront(swept.map((s) => s.entry))].sort(bestFirst);
}

/** What lies nearer together than this is not halved again, m. */
const NEAR_ENOUGH_M = 0.2;
const SAME_M = 0.01;

const candidatesApartM = (a: StandCandidate, b: StandCandidate): number =>
  Math.hypot(a.turntable[0] - b.turntable[0], a.turntable[1] - b.turntable[1], a.point[2] - b.point[2]);

/** Halfway between the best stand by an aspect that does not fail and the nearest of the better ones that do; `null` where there is none. */
function between(
  plan: Plan,
  swept: readonly { readonly one: CandidateStand; readonly entry: Entry }[],
  aspect: StandAspect,
): CandidateStand | null {
  const cost = (s: (typeof swept)[number]): number => aspectCost(s.entry.figures, aspect);
  const good = swept.filter((s) => s.entry.fit !== "fails").sort((a, b) => cost(a) - cost(b))[0];
  if (!good) return null;
  const away = (s: (typeof swept)[number]): number => candidatesApartM(s.one.candidate, good.one.candidate);
  const bad = swept.filter((s) => s.entry.fit === "fails" && cost(s) < cost(good)).sort((a, b) => away(a) - away(b))[0];
  if (!bad) return null;
  let fails = bad.one.candidate;
  for (;;) {
    if (candidatesApartM(good.one.candidate, fails) < NEAR_ENOUGH_M) return null;
    const middle = facingAsNow(plan, good.one.asked.question, halfway(good.one.candidate, fails));
    const choice = middle && choiceOf(good.one.asked, middle);
    if (!middle || !choice) return null;
    const known = swept.some((s) => candidatesApartM(s.one.candidate, middle) < SAME_M);
    if (!known) return { asked: good.one.asked, candidate: middle, choice, bestBy: [aspect] };
    fails = middle;
  }
}

const halfway = (a: StandCandidate, b: StandCandidate): StandCandidate => ({
  turntable: [(a.turntable[0] + b.turntable[0]) / 2, (a.turntable[1] + b.turntable[1]) / 2],
  headingRad: a.headingRad,
  point: [(a.point[0] + b.point[0]) / 2, (a.point[1] + b.point[1]) / 2, (a.point[2] + b.point[2]) / 2],
});

const byVehicle = (found: readonly FoundStands[]): readonly (readonly FoundStands[])[] =>
  [...new Set(found.map((f) => f.asked.question.vehicleKey))].map((key) =>
    found.filter((f) => f.asked.question.vehicleKey === key),
  );

function sweptEntry(plan: Plan, one: CandidateStand, others: readonly FoundStands[]): Entry {
  const { asked, candidate, choice, bestBy } = one;
  return {
    choice,
    aim: asked.aim,
    bestBy,
    alsoServes: others.flatMap((other) => poseOver(other, candidate)),
    ...sweepStand(withStand(plan, choice)),
  };
}

/** From the same place, over another aim: the shortest pose that is not rejected. */
function poseOver({ asked }: FoundStands, { turntable, headingRad }: StandCandidate): StandEntry["alsoServes"] {
  const { question, aim } = asked;
  const poses = [...tipHeights(question.steps.tipHeights, question.target)].flatMap((z) => {
    const candidate: StandCandidate = { turntable, headingRad, point: [aim.xM, aim.yM, z] };
    if (assessStand(question, candidate).status === "rejected") return [];
    return poseOfStand(question, candidate)?.pose ?? [];
  });
  const [first, ...rest] = poses;
  if (!first) return [];
  return [{ aim, pose: rest.reduce((a, b) => (b.lengthM < a.lengthM ? b : a), first) }];
}
