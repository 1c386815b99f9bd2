import type { Plan } from "../schema/plan.ts";
import { climbFrom } from "./climb-stand.ts";
import { apartFrom, betweenM, PLACES, type Placed, sampleStands } from "./sample-stands.ts";
import { aspectCost, bestByAspect, bestFirst, markFront } from "./stand-front.ts";
import { seedSpacingM } from "./stand-seeds.ts";
import { type FoundStands, STAND_ASPECTS, type StandAspect, type StandEntry } from "./stand-types.ts";
import { sweepTelling } from "./sweep-stand.ts";
import { poseOver, type Spot, standTrier, type TriedStand } from "./try-stands.ts";
import { withStand } from "./with-stand.ts";

export interface ShortListOptions {
  /** How many stands are listed at most for each vehicle; 10 unless said. */
  readonly most?: number;
  /** Asked before each look and each sweep (a look takes some milliseconds, a sweep tenths of a second); true ends it. */
  readonly cancelled?: () => boolean;
  /** Told of each stand as it is swept, before the front is known. */
  readonly onSwept?: (entry: Omit<StandEntry, "inFront">) => void;
}

const MOST = 10;
/**
 * Moments judged for one vehicle at most (some milliseconds each), and sweeps (tenths of a second each): the climbs share
 * out evenly what is left when their turn comes.
 */
const MOST_MOMENTS = 2000;
/** Of these at most so many to find where stands hold at all. */
const MOST_SAMPLED = 1000;
const MOST_SWEEPS = 10;
/** Looks of one climb at most. */
const MOST_LOOKS = 400;
/** Of a best that fails when swept, what fails is watched and the climb taken up again, so often. */
const TAKEN_UP = 4;
/** Starts of each aspect's climb. */
const STARTS = 2;
/** A climb ends within this, m; from the second start within this unless that is better than what the first led to. */
const WITHIN_M = 0.06;
const ROUGHLY_M = 0.3;
/** Stands of one list differ by more than this, and those from the second starts by more than that, m. */
const SAME_M = 0.1;
const ALIKE_M = 0.7;
/** Where none fits, so many that fail are swept, to say what governs. */
const FAILING_SHOWN = 5;

type Entry = Omit<StandEntry, "inFront">;

/**
 * The best stands of a search by each aspect, swept through the plan's whole evolution with every check, with the front of
 * trade-offs.
 *
 * Vehicle by vehicle: places spread over all that the search found (`standSeeds`) are judged at the moments that matter
 * (`momentJudge`); from the best of those that hold a pattern search goes on by each aspect, off the grid, for as long as
 * nothing is over. What it ends at is swept. If the sweep finds something over at another moment, that moment is watched and
 * the search taken up again. So the list holds stands that fit wherever there are any; where there are none, some that
 * fail, with the check that governs. Best first. Returns `null` if cancelled.
 *
 * @param found every vehicle and every aim; of several aims the first is swept, the others are served from the same place
 */
export function standShortList(
  plan: Plan,
  found: readonly FoundStands[],
  options: ShortListOptions = {},
): readonly StandEntry[] | null {
  const entries: Entry[] = [];
  for (const own of byVehicle(found)) {
    const listed = listOf(plan, own, options);
    if (listed === null) return null;
    entries.push(...listed);
  }
  return [...markFront(entries)].sort(bestFirst);
}

function listOf(
  plan: Plan,
  own: readonly FoundStands[],
  { most = MOST, cancelled, onSwept }: ShortListOptions,
): readonly Entry[] | null {
  const trier = standTrier(plan, own);
  const [first, ...others] = own;
  if (!trier || !first) return [];
  const { target } = first.asked.question;
  const listed: { readonly entry: Entry; readonly tried: Placed }[] = [];
  const ended = (): boolean => cancelled?.() === true;
  const stepM = seedSpacingM(own, PLACES);

  const add = (tried: Placed, swept: ReturnType<typeof sweepTelling>["swept"], apartM: number): void => {
    if (listed.length >= most || listed.some((l) => betweenM(l.tried.candidate, tried.candidate) < apartM)) return;
    const entry: Entry = {
      choice: tried.choice,
      aim: first.asked.aim,
      bestBy: [],
      alsoServes: others.flatMap((other) => poseOver(other, tried.candidate) ?? []),
      ...swept,
    };
    listed.push({ entry, tried });
    onSwept?.(entry);
  };

  const { spent } = trier.judge;
  const sampled = sampleStands(plan, own, trier, stepM, ended, () => spent() > MOST_SAMPLED);
  if (sampled === null) return null;
  const { holding, failing } = sampled;
  const failed: Placed[] = [];
  let sweeps = 0;
  let climbs = STARTS * STAND_ASPECTS.length;

  for (let start = 0; start < STARTS; start++) {
    for (const aspect of STAND_ASPECTS) {
      if (listed.length >= most && start > 0) break;
      const until = spent() + (MOST_MOMENTS - spent()) / Math.max(1, climbs--);
      for (let k = 0; k < TAKEN_UP && sweeps < MOST_SWEEPS; k++) {
        const from = startsBy(holding, aspect)[start];
        if (!from) break;
        const better = (at: Spot, now: TriedStand) =>
          trier.try(at, aspect, aspectCost(now.figures, aspect) - LEAST_GAIN);
        const enough = (): boolean => ended() || spent() > until;
        const climb = { stepM, withinM: start === 0 ? WITHIN_M : ROUGHLY_M, most: MOST_LOOKS, cancelled: enough };
        let best = climbFrom(from, target, climb, better);
        const [leader] = start === 0 ? [] : startsBy(holding, aspect);
        if (leader && aspectCost(best.figures, aspect) < aspectCost(leader.figures, aspect))
          best = climbFrom(best, target, { ...climb, stepM: ROUGHLY_M, withinM: WITHIN_M }, better);
        if (ended()) return null;
        sweeps++;
        const { swept, overAt } = sweepTelling(withStand(plan, best.choice));
        if (swept.fit !== "fails") {
          add(best, swept, start === 0 ? SAME_M : ALIKE_M);
          holding.push(best);
          break;
        }
        failed.push(best);
        trier.judge.watch(overAt);
        // What no longer holds now that more is watched is no start any more.
        for (let i = holding.length - 1; i >= 0; i--) {
          const one = holding[i];
          if (one && startsBy(holding, aspect).includes(one) && trier.judge.figures(one.choice) === null)
            holding.splice(i, 1);
        }
      }
    }
  }
  for (const placed of listed.length > 0 ? [] : [...failed, ...failing].slice(0, FAILING_SHOWN)) {
    if (ended()) return null;
    add(placed, sweepTelling(withStand(plan, placed.choice)).swept, SAME_M);
  }
  const all = listed.map((l) => l.entry);
  return all.map((entry) => ({
    ...entry,
    bestBy: STAND_ASPECTS.filter((aspect) => entry.fit !== "fails" && bestByAspect(all, aspect) === entry),
  }));
}

/** Less than this is no gain, in a figure's own unit. */
const LEAST_GAIN = 1e-4;

/** The best by an aspect, each apart from those before it. */
const startsBy = (holding: readonly TriedStand[], aspect: StandAspect): readonly TriedStand[] =>
  apartFrom([...holding].sort((a, b) => aspectCost(a.figures, aspect) - aspectCost(b.figures, aspect)));

const byVehicle = (found: readonly FoundStands[]): readonly (readonly FoundStands[])[] =>
  [...new Set(found.map((f) => f.asked.question.vehicleKey))].map((key) =>
    found.filter((f) => f.asked.question.vehicleKey === key),
  );
