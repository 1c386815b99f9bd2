import type { Check } from "../check.ts";
import { rankOf } from "../judge.ts";
import type { Moment, TimedCheck, When } from "./evolution-types.ts";

/** Example data is as unknown at one moment as at the next: it does not say which moment is worst. */
const STANDING = "example-data";

/** Is one check worse than another: a greater fault, or as great with more of its limit used? */
function isWorse(a: Check, b: Check): boolean {
  const [standsA, standsB] = [a.rule === STANDING, b.rule === STANDING];
  if (standsA !== standsB) return standsB;
  return rankOf(a.status) < rankOf(b.status) || (a.status === b.status && (a.ratio ?? -1) > (b.ratio ?? -1));
}

/** The worst of a moment's checks that count. */
export function worstOf(checks: readonly Check[]): Moment["worst"] {
  let worst: Check | null = null;
  for (const c of checks) if (c.counts && (worst === null || isWorse(c, worst))) worst = c;
  return { status: worst?.status ?? "unknown", ratio: worst?.ratio ?? null, checkId: worst?.id ?? null };
}

/** Is one moment's worst check worse than another's? */
export const worseMoment = (a: Moment["worst"], b: Moment["worst"]): boolean =>
  rankOf(a.status) < rankOf(b.status) || (a.status === b.status && (a.ratio ?? -1) > (b.ratio ?? -1));

const isEarlier = (a: When, b: When): boolean => a.stage < b.stage || (a.stage === b.stage && a.along < b.along);

/** Every check at its worst over the moments seen. */
export interface WorstKeeper {
  readonly see: (checks: readonly Check[], when: When) => void;
  readonly all: () => TimedCheck[];
}

/**
 * Keeps every check at its worst moment, the earliest where several are as bad. The others are let go at once: a sweep
 * makes many thousands.
 */
export function keepWorst(): WorstKeeper {
  const worst = new Map<string, { check: Check; when: When }>();
  return {
    see(checks, when) {
      for (const check of checks) {
        const known = worst.get(check.id);
        if (!known || isWorse(check, known.check) || (isEarlier(when, known.when) && !isWorse(known.check, check)))
          worst.set(check.id, { check, when });
      }
    },
    all: () =>
      [...worst.values()].map(({ check, when }) => ({ ...check, when: check.rule === STANDING ? null : when })),
  };
}
