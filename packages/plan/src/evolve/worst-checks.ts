import { type Finding, rankOf, tell } from "../judge.ts";
import type { Moment, TimedCheck, When } from "./evolution-types.ts";

/** Example data is as unknown at one moment as at the next: it does not say which moment is worst. */
const STANDING = "example-data";

/** Is one check worse than another: a greater fault, or as great with more of its limit used? */
function isWorse(a: Finding, b: Finding): boolean {
  const [standsA, standsB] = [a.rule === STANDING, b.rule === STANDING];
  if (standsA !== standsB) return standsB;
  if (a.status !== b.status) return rankOf(a.status) < rankOf(b.status);
  // Where no limit is known, the most that is asked for is worst.
  return a.ratio === null && b.ratio === null ? asked(a) > asked(b) : (a.ratio ?? -1) > (b.ratio ?? -1);
}

const asked = ({ demand }: Finding): number => demand?.value ?? -1;

/** The worst of a moment's checks that count. */
export function worstOf(checks: readonly Finding[]): Moment["worst"] {
  let worst: Finding | null = null;
  for (const c of checks) if (c.counts && (worst === null || isWorse(c, worst))) worst = c;
  return { status: worst?.status ?? "unknown", ratio: worst?.ratio ?? null, checkId: worst?.id ?? null };
}

/** Is one moment's worst check worse than another's? */
export const worseMoment = (a: Moment["worst"], b: Moment["worst"]): boolean =>
  rankOf(a.status) < rankOf(b.status) || (a.status === b.status && (a.ratio ?? -1) > (b.ratio ?? -1));

const isEarlier = (a: When, b: When): boolean => a.stage < b.stage || (a.stage === b.stage && a.along < b.along);

/** Every check at its worst over the moments seen. */
export interface WorstKeeper {
  readonly see: (found: readonly Finding[], when: When) => void;
  /** All that another one keeps. */
  readonly take: (other: WorstKeeper) => void;
  readonly kept: () => Iterable<{ readonly found: Finding; readonly when: When }>;
  readonly all: () => TimedCheck[];
}

/**
 * Keeps every check at its worst moment, the earliest where several are as bad. The others are let go at once: a sweep
 * makes many thousands.
 */
export function keepWorst(): WorstKeeper {
  const worst = new Map<string, { found: Finding; when: When }>();
  const seeOne = (found: Finding, when: When): void => {
    const known = worst.get(found.id);
    if (!known) worst.set(found.id, { found, when });
    else if (isWorse(found, known.found) || (isEarlier(when, known.when) && !isWorse(known.found, found))) {
      known.found = found;
      known.when = when;
    }
  };
  return {
    see(all, when) {
      for (const found of all) seeOne(found, when);
    },
    take(other) {
      for (const { found, when } of other.kept()) seeOne(found, when);
    },
    kept: () => worst.values(),
    all: () =>
      [...worst.values()].map(({ found, when }) => ({ ...tell(found), when: found.rule === STANDING ? null : when })),
  };
}
