import { STAND_CHECKS, type StandCheck } from "./stand-reason.ts";

/**
 * What speaks against one candidate, or one part of it: the check it misses most, and the first that could not be told.
 *
 * Changes in place, because searches fill millions of them. `miss` is 0 where nothing is known to be wrong.
 */
export interface Finding {
  /** How far from passing, relative to the limit. */
  miss: number;
  /** A miss by so much is enough to know: nothing more need be looked at. */
  enough: number;
  /** All misses added up: tells which of two candidates is nearer to passing where the greatest alone does not change. */
  total: number;
  /** Index in `STAND_CHECKS`; 0 for none. */
  check: number;
  value: number;
  limit: number;
  thing: number;
  /** The same for what could not be told. */
  open: number;
  openValue: number;
  openLimit: number;
  openThing: number;
}

export const emptyFinding = (): Finding => ({
  miss: 0,
  enough: Number.MAX_VALUE,
  total: 0,
  check: 0,
  value: 0,
  limit: 0,
  thing: -1,
  open: 0,
  openValue: UNTOLD,
  openLimit: UNTOLD,
  openThing: -1,
});

/** A value or limit that is not known. */
export const UNTOLD = -1;

/** No miss counts for more than this, so that a limit of zero brings no infinity. */
export const MOST_MISS = 99;

export const codeOf = (check: StandCheck): number => STAND_CHECKS.indexOf(check);

export function clearFinding(finding: Finding): void {
  finding.miss = 0;
  finding.total = 0;
  finding.check = 0;
  finding.value = 0;
  finding.limit = 0;
  finding.thing = -1;
  finding.open = 0;
  finding.openValue = UNTOLD;
  finding.openLimit = UNTOLD;
  finding.openThing = -1;
}

export function copyFinding(to: Finding, from: Finding): void {
  to.miss = from.miss;
  to.total = from.total;
  to.check = from.check;
  to.value = from.value;
  to.limit = from.limit;
  to.thing = from.thing;
  to.open = from.open;
  to.openValue = from.openValue;
  to.openLimit = from.openLimit;
  to.openThing = from.openThing;
}

/** Notes a check that fails; `miss` > 0. The greatest miss governs, the earlier of two alike. */
export function fails(
  finding: Finding,
  check: number,
  value: number,
  limit: number,
  miss: number,
  thing: number,
): void {
  const counted = Math.min(miss, MOST_MISS);
  finding.total += counted;
  if (counted <= finding.miss) return;
  finding.miss = counted;
  finding.check = check;
  finding.value = value;
  finding.limit = limit;
  finding.thing = thing;
}

/** Notes a check that cannot be told; `UNTOLD` for what is missing. The first is kept. */
export function leavesOpen(finding: Finding, check: number, value: number, limit: number, thing: number): void {
  if (finding.open !== 0) return;
  finding.open = check;
  finding.openValue = value;
  finding.openLimit = limit;
  finding.openThing = thing;
}

/** Clearances asked for below this are taken for this when misses are compared, m. */
const LEAST_CLEARANCE_M = 0.1;

/** A distance found, short of the one asked for, as a relative miss; anything that touches misses by something. */
export const shortBy = (foundM: number, wantedM: number): number =>
  Math.max(1e-9, (wantedM - foundM) / Math.max(wantedM, LEAST_CLEARANCE_M));
