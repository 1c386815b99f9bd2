import { STAND_ASPECTS, type StandAspect, type StandEntry, type StandFigures, type StandFit } from "./stand-types.ts";

const RANK: Readonly<Record<StandFit, number>> = { fits: 0, unknown: 1, fails: 2 };

/** All figures as costs. */
const costs = (f: StandFigures): readonly number[] => STAND_ASPECTS.map((aspect) => aspectCost(f, aspect));

/** A stand's figure by an aspect, turned so that less is better; what is not known is as bad as can be. */
export function aspectCost(f: StandFigures, aspect: StandAspect): number {
  switch (aspect) {
    case "steepest":
      return -f.elevationRad;
    case "shortest":
      return f.lengthM;
    case "leastUsed":
      return f.utilisation ?? Number.MAX_VALUE;
    case "lowestTip":
      return f.tipForceN ?? Number.MAX_VALUE;
    case "clearest":
      return -(f.clearanceM ?? -Number.MAX_VALUE);
    case "leastRope":
      return f.ropeM ?? Number.MAX_VALUE;
  }
}

/** The best stand of a list by an aspect, of those that fit as well as any; `null` for an empty list. */
export function bestByAspect<T extends Pick<StandEntry, "fit" | "figures">>(
  entries: readonly T[],
  aspect: StandAspect,
): T | null {
  let best: T | null = null;
  for (const e of entries) {
    const better =
      best === null ||
      RANK[e.fit] < RANK[best.fit] ||
      (e.fit === best.fit && aspectCost(e.figures, aspect) < aspectCost(best.figures, aspect));
    if (better) best = e;
  }
  return best;
}

/** Differences smaller than this share are none. */
const ALIKE = 1e-6;

/** Marks the front of trade-offs: the stands that no other one of the list beats. What fails is never in front. */
export function markFront(entries: readonly Omit<StandEntry, "inFront">[]): readonly StandEntry[] {
  return entries.map((entry) => ({
    ...entry,
    inFront: entry.fit !== "fails" && !entries.some((other) => other !== entry && beats(other, entry)),
  }));
}

function beats(a: Omit<StandEntry, "inFront">, b: Omit<StandEntry, "inFront">): boolean {
  if (RANK[a.fit] > RANK[b.fit]) return false;
  const [of, over] = [costs(a.figures), costs(b.figures)];
  const margins = of.map((cost, k) => {
    const other = over[k] ?? 0;
    const size = Math.max(1, Math.min(Math.abs(cost), Math.abs(other)));
    return (other - cost) / size;
  });
  return margins.every((m) => m >= -ALIKE) && (margins.some((m) => m > ALIKE) || RANK[a.fit] < RANK[b.fit]);
}

/** Those that fit first, then those of which something is not known; within them the least used first. */
export const bestFirst = (a: StandEntry, b: StandEntry): number =>
  RANK[a.fit] - RANK[b.fit] ||
  Number(b.inFront) - Number(a.inFront) ||
  (a.figures.utilisation ?? Number.MAX_VALUE) - (b.figures.utilisation ?? Number.MAX_VALUE);
