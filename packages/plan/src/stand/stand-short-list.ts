import type { When } from "../evolve/evolution-types.ts";
import type { Plan } from "../schema/plan.ts";
import { alongEdge } from "./along-edge.ts";
import { betterElsewhere } from "./better-elsewhere.ts";
import { climbFrom } from "./climb-stand.ts";
import { apartFrom, betweenM, PLACES, type Placed, sampleStands } from "./sample-stands.ts";
import { aspectCost, bestByAspect, bestFirst, markFront } from "./stand-front.ts";
import { seedSpacingM } from "./stand-seeds.ts";
import { type FoundStands, STAND_ASPECTS, type StandAspect, type StandEntry } from "./stand-types.ts";
import { sweepTelling } from "./sweep-stand.ts";
import { poseOver, type Spot, type StandTrier, standTrier, type TriedStand } from "./try-stands.ts";
import { withStand } from "./with-stand.ts";

export interface ShortListOptions {
  /** How many stands are listed at most for each vehicle; 10 unless said. */
  readonly most?: number;
  /** What share of the looks it usually takes may be spent, > 0; 1 unless said. */
  readonly effort?: number;
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
const MOST_MOMENTS = 3000;
/** Of these at most so many to find where stands hold at all. */
const MOST_SAMPLED = 1000;
const MOST_SWEEPS = 12;
/** Looks of one climb at most. */
const MOST_LOOKS = 400;
/** Of a best that fails when swept, what fails is watched and the climb taken up again, so often. */
const TAKEN_UP = 4;
/**
 * Rounds over all aspects. Each climb begins at the best by its aspect of all that is known to hold, whichever aspect led there:
 * first with wide steps; then from what is likely better wherever it lies, with steps along the nearest edge of the parking
 * ground and square to it; then from the best with the vehicle turned about, or the best but one.
 */
const ROUNDS = ["best", "elsewhere", "second"] as const;
/** What is left of the moments is shared out by these. */
const WEIGHT = { best: 3, elsewhere: 3, second: 1 } as const;
/** What is better than a stand that holds by less than this share is not swept. */
const WORTH = 0.002;
/** A climb ends within this, m; from the second start within this unless that is better than what the first led to. */
const WITHIN_M = 0.06;
const ROUGHLY_M = 0.3;
/** Stands of one list differ by more than this, m, but for those best by an aspect. */
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
 * nothing is over; then again, from whatever any aspect led to and from places anywhere that are likely better
 * (`betterElsewhere`). What it ends at is swept. If the sweep finds something over at another moment, that moment is watched and
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
  { most = MOST, effort = 1, cancelled, onSwept }: ShortListOptions,
): readonly Entry[] | null {
  const judging = standTrier(plan, own);
  const [first, ...others] = own;
  if (!judging || !first) return [];
  const trier: StandTrier = judging;
  const { target, parking } = first.asked.question;
  const good: Swept[] = [];
  const ended = (): boolean => cancelled?.() === true;
  const stepM = seedSpacingM(own, PLACES);

  const sweep = (tried: Placed): { readonly entry: Entry; readonly overAt: readonly When[] } => {
    const { swept, overAt } = sweepTelling(withStand(plan, tried.choice));
    const alsoServes = others.flatMap((other) => poseOver(other, tried.candidate) ?? []);
    return {
      entry: { choice: tried.choice, aim: first.asked.aim, bestBy: [], alsoServes, roomM: null, ...swept },
      overAt,
    };
  };

  const { spent } = trier.judge;
  const sampled = sampleStands(plan, own, trier, stepM, ended, () => spent() > MOST_SAMPLED * effort);
  if (sampled === null) return null;
  const { holding, failing } = sampled;
  const failed: Placed[] = [];
  let sweeps = 0;
  let weight = STAND_ASPECTS.length * ROUNDS.reduce((sum, round) => sum + WEIGHT[round], 0);
  const isKnown = (tried: Placed): boolean => good.some((g) => g.tried.choice === tried.choice);

  const isWorth = ({ figures }: TriedStand, aspect: StandAspect): boolean => {
    const cost = aspectCost(figures, aspect);
    return good.every((g) => cost < aspectCost(g.entry.figures, aspect) - WORTH * Math.abs(cost));
  };

  /** The same place with the vehicle turned about, if that holds too. */
  const facingAbout = ({ candidate: { turntable, point, turnRad = 0 } }: TriedStand): TriedStand | null =>
    trier.try({ turntable, point, turnRad: turnRad + Math.PI });

  /** The best that a climb by an aspect leads to; `null` where there is nothing to begin at. */
  function climbed(aspect: StandAspect, round: (typeof ROUNDS)[number], until: number): TriedStand | null {
    const starts = startsBy(holding, aspect);
    const [leader] = starts;
    const from = round === "second" ? (leader && facingAbout(leader)) || starts[1] : leader;
    if (!from) return null;
    const better = (at: Spot, now: TriedStand) => trier.try(at, aspect, aspectCost(now.figures, aspect) - LEAST_GAIN);
    const enough = (): boolean => ended() || spent() > until;
    const climb = { stepM, withinM: WITHIN_M, most: MOST_LOOKS, cancelled: enough };
    if (round === "best") return climbFrom(from, target, climb, better);
    if (round === "second") {
      const rough = climbFrom(from, target, { ...climb, withinM: ROUGHLY_M }, better);
      const leads = aspectCost(rough.figures, aspect) < aspectCost(starts[0]?.figures ?? rough.figures, aspect);
      return leads ? climbFrom(rough, target, { ...climb, stepM: ROUGHLY_M }, better) : rough;
    }
    const found = round === "elsewhere" ? betterElsewhere(trier, own, from, aspect, enough) : null;
    return climbFrom(found ?? from, target, { ...climb, outwardRad: alongEdge(parking) }, better);
  }

  for (const round of ROUNDS) {
    for (const aspect of STAND_ASPECTS) {
      const until = spent() + ((MOST_MOMENTS * effort - spent()) * WEIGHT[round]) / weight;
      weight -= WEIGHT[round];
      for (let k = 0; k < TAKEN_UP && sweeps < MOST_SWEEPS; k++) {
        const best = climbed(aspect, round, until);
        if (ended()) return null;
        if (best === null || isKnown(best)) break;
        if (round === "elsewhere" && !isWorth(best, aspect)) break;
        if (round === "second" && good.some((g) => betweenM(g.tried.candidate, best.candidate) < ALIKE_M)) break;
        sweeps++;
        const { entry, overAt } = sweep(best);
        if (entry.fit !== "fails") {
          good.push({ entry, tried: best });
          holding.push(best);
          onSwept?.(entry);
          break;
        }
        failed.push(best);
        trier.judge.watch(overAt);
        // What no longer holds now that more is watched is no start any more.
        for (let i = holding.length - 1; i >= 0; i--) {
          const one = holding[i];
          if (
            one &&
            !isKnown(one) &&
            startsBy(holding, aspect).includes(one) &&
            trier.judge.figures(one.choice) === null
          )
            holding.splice(i, 1);
        }
      }
    }
  }
  const listed = good.length > 0 ? mostOf(good, most) : [];
  for (const placed of listed.length > 0 ? [] : [...failed, ...failing].slice(0, Math.min(most, FAILING_SHOWN))) {
    if (ended()) return null;
    const { entry } = sweep(placed);
    listed.push({ entry, tried: placed });
    onSwept?.(entry);
  }
  const all = listed.map((l) => l.entry);
  return all.map((entry) => ({
    ...entry,
    bestBy: STAND_ASPECTS.filter((aspect) => entry.fit !== "fails" && bestByAspect(all, aspect) === entry),
  }));
}

interface Swept {
  readonly entry: Entry;
  readonly tried: Placed;
}

/** Of all that do not fail the best by every aspect, then others that differ from these. */
function mostOf(good: readonly Swept[], most: number): Swept[] {
  const entries = good.map((g) => g.entry);
  const leading = new Set(STAND_ASPECTS.map((aspect) => bestByAspect(entries, aspect)));
  const kept = good.filter((g) => leading.has(g.entry)).slice(0, most);
  for (const one of good)
    if (kept.length < most && kept.every((k) => betweenM(k.tried.candidate, one.tried.candidate) >= ALIKE_M))
      kept.push(one);
  return kept;
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
