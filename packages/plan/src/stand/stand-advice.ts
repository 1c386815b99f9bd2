import type { Device } from "../schema/aerial.ts";
import type { Plan } from "../schema/plan.ts";
import { fitOf, type SeekOptions, seekStand } from "./seek-stand.ts";
import { standAims } from "./stand-aims.ts";
import { type Changed, type StandChange, standChanges } from "./stand-changes.ts";
import type { StandAdvice, StandAim, StandAsk, StandChoice } from "./stand-types.ts";
import { withStand } from "./with-stand.ts";

export interface AdviceOptions {
  /** Vehicles that could be brought. */
  readonly vehicles?: readonly Device[];
  /** Further places that the same stand must serve. */
  readonly others?: readonly StandAim[];
  /** Asked some tenths of a second apart at most; true ends it. */
  readonly cancelled?: () => boolean;
  /** Told of each change as it is found. */
  readonly onFound?: (advice: StandAdvice) => void;
}

/** Where the most of a change cannot be had, or does harm, halves of it are tried so often. */
const LESS_TRIED = 3;
/** Once the least is found, a little less is tried again, so often: a search that missed a stand once may find one then. */
const TRIED_AGAIN = 5;

/**
 * What single change would make a stand possible? Those after which it fits, then those after which something is not known; smallest first.
 *
 * Each change of `standChanges` is tried with the most of it: the plan is changed, the question asked anew, searched, and what
 * it finds is judged through the whole evolution until one stand does not fail. Where there is one, the least that does
 * it is found by halving, each time with the whole search: by the search alone first, where that is what nothing passes;
 * by the evolution where that is not enough. What only the evolution judges is not tried where the search finds nothing. So the amount is right as far as more of it never hurts. Every answer carries
 * the plan with change and stand. An empty list: there is a stand as things are, or no single change of these does it.
 * `null`: cancelled.
 */
export function standAdvice(
  plan: Plan,
  ask: StandAsk = {},
  { vehicles = [], others = [], cancelled = () => false, onFound }: AdviceOptions = {},
): readonly StandAdvice[] | null {
  const aim = ask.aim ?? standAims(plan)[0];
  const searchFinds = seekStand(plan, ask, { swept: false, others, cancelled }) !== null;
  const stands = searchFinds && seekStand(plan, ask, { swept: true, others, cancelled }) !== null;
  if (cancelled()) return null;
  if (stands) return [];
  const found: StandAdvice[] = [];
  for (const change of standChanges(plan, { ...ask, aim }, aim, vehicles)) {
    if (change.ofEvolution && !searchFinds) continue;
    const advice = adviceOf(change, !searchFinds, { swept: true, others, cancelled });
    if (cancelled()) return null;
    if (advice) {
      found.push(advice);
      onFound?.(advice);
    }
  }
  return inOrder(found);
}

/** Those after which a stand fits first, then those after which something is not known; smaller changes first. */
export const inOrder = <T extends Pick<StandAdvice, "fit" | "size">>(advice: readonly T[]): readonly T[] =>
  [...advice].sort((a, b) => Number(a.fit !== "fits") - Number(b.fit !== "fits") || a.size - b.size);

interface Possible {
  readonly amount: number;
  readonly changed: Changed;
  readonly choice: StandChoice;
}

/** The least of one change that does it. */
function adviceOf(change: StandChange, bySearchFirst: boolean, seek: SeekOptions): StandAdvice | null {
  const most = mostOf(change, seek);
  if (most === null) return null;
  if (change.most === null) return answered(change, most);
  if (!bySearchFirst) return answered(change, leastOf(change, most, 0, seek));
  const least = leastOf(change, most, 0, { ...seek, swept: false });
  const enough = tried(change, least.amount, seek);
  return answered(change, enough ?? leastOf(change, most, least.amount, seek));
}

function tried(change: StandChange, amount: number, seek: SeekOptions): Possible | null {
  const changed = change.by(amount);
  const choice = changed && seekStand(changed.plan, changed.ask, seek);
  return changed && choice && { amount, changed, choice };
}

/** With the most of a change that can be had, if that does it; with less where more can do harm. */
function mostOf(change: StandChange, seek: SeekOptions): Possible | null {
  let amount = change.most ?? 0;
  for (let k = 0; k <= (change.most === null ? 0 : LESS_TRIED); k++) {
    if (change.by(amount) !== null) {
      const found = tried(change, amount, seek);
      if (found !== null || !change.moreCanHurt || seek.cancelled()) return found;
    }
    amount /= 2;
  }
  return null;
}

const LITTLE_LESS = 1.01;

/** Halving between what is too little and what does it. */
function leastOf(change: StandChange, enough: Possible, tooLittle: number, seek: SeekOptions): Possible {
  let least = enough;
  for (let low = tooLittle; least.amount - low > change.within && !seek.cancelled(); ) {
    const middle = (least.amount + low) / 2;
    const found = tried(change, middle, seek);
    if (found) least = found;
    else low = middle;
  }
  for (let k = 0; k < TRIED_AGAIN && !seek.cancelled(); k++) {
    const found = tried(change, least.amount - LITTLE_LESS * change.within, seek);
    if (!found || found.amount <= tooLittle) break;
    least = found;
  }
  return least;
}

function answered(change: StandChange, { amount, changed, choice }: Possible): StandAdvice | null {
  const fit = fitOf(changed.plan, choice);
  if (fit === "fails") return null;
  const { most, within } = change;
  return {
    kind: change.kind,
    amount: most === null ? null : amount,
    withinAmount: most === null ? null : within,
    quantity: change.quantity,
    size: change.size(amount),
    says: change.says(amount, choice),
    choice,
    fit,
    plan: withStand(changed.plan, choice),
  };
}
