import type { StandTarget } from "@gantline/engine";
import type { Plan } from "../schema/plan.ts";
import { climbFrom } from "./climb-stand.ts";
import { standSeeds } from "./stand-seeds.ts";
import type { FoundStands } from "./stand-types.ts";
import type { Spot, StandTrier, TriedStand } from "./try-stands.ts";

/** Places that the search found are sampled at so many. */
export const PLACES = 36;
/** So many of a list are followed, each at least so far from those before it, m. */
const FOLLOWED = 3;
const APART_M = 1.5;
const MOST_LOOKS_FOR_LESS = 120;
/** A climb toward what holds ends within this, m. */
const WITHIN_M = 0.03;

export type Placed = Pick<TriedStand, "candidate" | "choice">;

export interface SampledStands {
  readonly holding: TriedStand[];
  /** Those nearest to holding first where none holds. */
  readonly failing: readonly Placed[];
}

/**
 * Which of the places spread over what the search found hold at the moments that matter? Where none does, from those that miss
 * by least toward what misses by less, until one holds. `null` if cancelled.
 *
 * @param enough true ends it with what there is
 */
export function sampleStands(
  plan: Plan,
  own: readonly FoundStands[],
  trier: StandTrier,
  stepM: number,
  ended: () => boolean,
  enough: () => boolean,
): SampledStands | null {
  const holding: TriedStand[] = [];
  const failing: Placed[] = [];
  for (const seed of standSeeds(plan, own, PLACES)) {
    if (ended()) return null;
    if (enough()) break;
    const placed = trier.place(seed);
    if (!placed) continue;
    const figures = trier.judge.figures(placed.choice);
    if (figures) holding.push({ ...placed, figures });
    else failing.push(placed);
  }
  if (holding.length === 0) return follow(own, trier, failing, stepM, ended, enough);
  holding.push(...lowered(trier, holding, failing, ended));
  return { holding, failing };
}

/** Of places with the shortest ladder so many are lowered, by so many halvings. */
const LOWERED = 10;
const HALVINGS = 4;

/** At the same places, as low between what holds and what does not below it as still holds: where the ladder is shorter and the rope less. */
function lowered(
  trier: StandTrier,
  holding: readonly TriedStand[],
  failing: readonly Placed[],
  ended: () => boolean,
): readonly TriedStand[] {
  const sameGround = (a: Placed, b: Placed): boolean =>
    a.candidate.turntable[0] === b.candidate.turntable[0] && a.candidate.turntable[1] === b.candidate.turntable[1];
  const lowest = holding.filter((h) =>
    holding.every((other) => !sameGround(h, other) || other.candidate.point[2] >= h.candidate.point[2]),
  );
  const shortest = [...lowest].sort((a, b) => a.figures.lengthM - b.figures.lengthM).slice(0, LOWERED);
  return shortest.flatMap((one) => {
    const below = failing.flatMap((f) =>
      sameGround(f, one) && f.candidate.point[2] < one.candidate.point[2] ? [f.candidate.point[2]] : [],
    );
    let not = Math.max(...below);
    let held = one;
    for (let k = 0; k < HALVINGS && below.length > 0 && !ended(); k++) {
      const { turntable, point, turnRad = 0 } = held.candidate;
      const middle = (point[2] + not) / 2;
      const lower = trier.try({ turntable, point: [point[0], point[1], middle], turnRad });
      if (lower) held = lower;
      else not = middle;
    }
    return held === one ? [] : [held];
  });
}

function follow(
  own: readonly FoundStands[],
  trier: StandTrier,
  failing: readonly Placed[],
  stepM: number,
  ended: () => boolean,
  enough: () => boolean,
): SampledStands | null {
  const holding: TriedStand[] = [];
  const target = own[0]?.asked.question.target;
  if (!target) return { holding, failing };
  const stop = (): boolean => ended() || enough();
  const missing = nearestFirst(trier, failing, stop);
  for (const start of apartFrom(missing)) {
    const end = descend(trier, start, target, { stepM, most: MOST_LOOKS_FOR_LESS, ended: stop });
    if (ended()) return null;
    if (end) holding.push(end);
  }
  return { holding, failing: missing };
}

type Missing = Placed & { readonly excess: number };

/** Those that miss by least first; what misses by much more than the least is not told apart. */
export function nearestFirst(trier: StandTrier, failing: readonly Placed[], ended: () => boolean): readonly Missing[] {
  let least = Number.MAX_VALUE / 4;
  const missing: Missing[] = [];
  for (const placed of failing) {
    if (ended()) break;
    const excess = trier.judge.excess(placed.choice, MUCH_MORE * least);
    least = Math.min(least, excess);
    missing.push({ ...placed, excess });
  }
  return missing.sort((a, b) => a.excess - b.excess);
}

const MUCH_MORE = 1.5;

/** From a stand that misses toward what misses by less: the one that holds that it leads to, if any. */
export function descend(
  trier: StandTrier,
  start: Missing,
  target: StandTarget,
  { stepM, most, ended }: { readonly stepM: number; readonly most: number; readonly ended: () => boolean },
): TriedStand | null {
  const options = { stepM, withinM: WITHIN_M, most, cancelled: ended };
  const end = climbFrom(start, target, options, (at: Spot, now: Missing) => {
    const placed = now.excess === 0 ? null : trier.place(at);
    if (!placed) return null;
    const excess = trier.judge.excess(placed.choice, now.excess);
    return excess < now.excess - 1e-6 ? { ...placed, excess } : null;
  });
  const figures = end.excess === 0 ? trier.judge.figures(end.choice) : null;
  return figures && { candidate: end.candidate, choice: end.choice, figures };
}

/** The first few of a list, each apart from those before it. */
export function apartFrom<T extends Placed>(sorted: readonly T[]): readonly T[] {
  const kept: T[] = [];
  for (const one of sorted) {
    if (kept.every((k) => betweenM(k.candidate, one.candidate) >= APART_M)) kept.push(one);
    if (kept.length >= FOLLOWED) break;
  }
  return kept;
}

/** How far apart two stands are, in plan and in the height of the tip, m. */
export const betweenM = (a: Spot, b: Spot): number =>
  Math.hypot(a.turntable[0] - b.turntable[0], a.turntable[1] - b.turntable[1], a.point[2] - b.point[2]);
