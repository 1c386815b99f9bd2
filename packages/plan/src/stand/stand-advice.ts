import type { Device } from "../schema/aerial.ts";
import type { Plan } from "../schema/plan.ts";
import { pickStand, type SeekOptions, seekStand } from "./seek-stand.ts";
import { standAims } from "./stand-aims.ts";
import { type Changed, type StandChange, standChanges } from "./stand-changes.ts";
import type { FoundStands, StandAdvice, StandAsk } from "./stand-types.ts";
import { withStand } from "./with-stand.ts";

export interface AdviceOptions {
  /** Vehicles that could be brought. */
  readonly vehicles?: readonly Device[];
  /** Asked some tenths of a second apart at most; true ends it. */
  readonly cancelled?: () => boolean;
  /** Told of each change as it is found. */
  readonly onFound?: (advice: StandAdvice) => void;
}

/** The amount of a change is found to within this share of the most that is looked at: by the search, and by sweeps. */
const WITHIN_BY_SEARCH = 1 / 64;
const WITHIN_BY_SWEEPS = 1 / 8;
/** Stands swept each time, where the search finds stands but their evolution fails. */
const SWEEPS = 2;
/** Stands swept of an answer, so that the one given does not fail if another of them does not. */
const SWEPT_AT_LAST = 3;

/**
 * What single change would make a stand possible, smallest first?
 *
 * Each change of `standChanges` is tried with the most of it: the plan is changed, the question asked anew and searched. Where
 * there is a stand then, the least that does it is found by halving, each time with the whole search; so the amount is right as
 * far as more of it never hurts. Where the search finds stands as things are, but the best of them fail their evolution,
 * a change counts once one of the best does not fail. Bounded work: at most eight searches a change, or five with two
 * sweeps each. Every answer carries the plan with change and stand. An empty list: there is a stand as things
 * are, or no single change of these does it. `null`: cancelled.
 */
export function standAdvice(
  plan: Plan,
  ask: StandAsk = {},
  { vehicles = [], cancelled = () => false, onFound }: AdviceOptions = {},
): readonly StandAdvice[] | null {
  const aim = ask.aim ?? standAims(plan)[0];
  const asIs = seekStand(plan, ask, { sweeps: 0, cancelled });
  const fitsAsIs = asIs && pickStand(plan, asIs, { sweeps: SWEPT_AT_LAST, cancelled })?.fit !== "fails";
  if (cancelled()) return null;
  if (fitsAsIs) return [];
  const seek: SeekOptions = { sweeps: asIs ? SWEEPS : 0, cancelled };
  const found: StandAdvice[] = [];
  for (const change of standChanges(plan, { ...ask, aim }, aim, vehicles)) {
    const advice = adviceOf(change, seek);
    if (cancelled()) return null;
    // A change after which the best stands still fail their evolution makes nothing possible.
    if (advice && advice.fit !== "fails") {
      found.push(advice);
      onFound?.(advice);
    }
  }
  return found.sort((a, b) => a.size - b.size);
}

/** The least of one change that does it; where the stand the search then finds fails its evolution, the least that brings one that does not. */
function adviceOf(change: StandChange, seek: SeekOptions): StandAdvice | null {
  const least = leastOf(change, seek, 0);
  const answer = least && answered(change, least, seek);
  if (!least || !answer || answer.fit !== "fails" || seek.sweeps > 0 || change.most === null) return answer;
  const swept = { ...seek, sweeps: SWEEPS };
  const more = leastOf(change, swept, least.amount);
  return (more && answered(change, more, swept)) ?? answer;
}

/** Halving between what is too little and the most that is looked at; `null` where the most does not do either. */
function leastOf(change: StandChange, seek: SeekOptions, tooLittle: number): Possible | null {
  const withAmount = (amount: number): Possible | null => {
    const changed = change.by(amount);
    const found = changed && seekStand(changed.plan, changed.ask, seek);
    return changed && found && { amount, changed, found };
  };
  let least = withAmount(change.most ?? 0);
  if (least === null || change.most === null) return least;
  const withinAmount = withinOf(change.most, seek);
  for (let low = tooLittle; least.amount - low > withinAmount; ) {
    const middle: number = (least.amount + low) / 2;
    const tried = withAmount(middle);
    if (seek.cancelled()) return null;
    if (tried) least = tried;
    else low = middle;
  }
  return least;
}

function answered(change: StandChange, { amount, changed, found }: Possible, seek: SeekOptions): StandAdvice | null {
  const picked = pickStand(changed.plan, found, { ...seek, sweeps: SWEPT_AT_LAST });
  if (picked === null) return null;
  const { most } = change;
  return {
    kind: change.kind,
    amount: most === null ? null : amount,
    withinAmount: most === null ? null : withinOf(most, seek) + (change.grain ?? 0),
    quantity: change.quantity,
    size: change.size(amount),
    says: change.says(amount, picked.choice),
    ...picked,
    plan: withStand(changed.plan, picked.choice),
  };
}

const withinOf = (most: number, { sweeps }: SeekOptions): number =>
  most * (sweeps > 0 ? WITHIN_BY_SWEEPS : WITHIN_BY_SEARCH);

interface Possible {
  readonly amount: number;
  readonly changed: Changed;
  readonly found: FoundStands;
}
