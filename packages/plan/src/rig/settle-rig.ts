import { addScaled, distance, dot, norm, rideRopes, type SiteVector, subtract, unit, ZERO } from "@gantline/engine";
import type { LaidMain, LaidRig } from "./lay-lines.ts";
import type { TetherRun } from "./rig-state.ts";

/** The rig has settled when nothing moves further than this from one round to the next, m. */
export const SETTLED_M = 1e-9;
/** What still moves further than this after all rounds has no answer; a rope that pulls so lightly is at rest by its friction. */
const RESTS_M = 1e-6;
const ROUNDS = 120;
const SHRINKS_BY = 3;
/**
 * Of the main lines' tension: a tether that pulls less leaves its pulley where it hangs on the rope. Frictionless, so light
 * a pull would still draw it far along the rope; a real sheave's friction holds it. Planning choice, no source.
 */
const NO_PULL = 5e-3;

/** What has no fixed place: the tip sheaves on their slings, and the tether's pulley riding on the ropes. */
export interface Floating {
  readonly sheaves: readonly SiteVector[];
  readonly rider: SiteVector | null;
  readonly pulled: boolean;
  readonly against: TetherRun["against"];
}

/** What a solution for given floating parts must tell to place them again. */
interface Found {
  readonly yoke: SiteVector;
  /** Tension of each main line at the load, N. */
  readonly mainsN: readonly number[];
  readonly tetherN: number;
}

/**
 * A tip sheave hangs on its sling in line with the pull of its two ropes, and the tether's pulley rides where the ropes
 * and the tether balance. Where they are depends on where the yoke is, and that on where they are: repeat until nothing
 * moves. Slings are short beside ropes, and the pulley stays near the foot of the yoke's perpendicular on the rope, so
 * each round brings the error down by a good factor.
 *
 * @param foundFor the balance for given floating parts, and for the weight of ropes to a yoke where it was a round before;
 * null where nothing holds the load
 * @param withinM it has settled when nothing moves further than this from one round to the next, m; where this is coarser than
 * a ledger asks, only if each round still brings it down by a good factor: what creeps may never come to rest
 * @param from where the floating parts begin, where that is known
 * @returns null where nothing holds the load, or where the parts do not come to rest: never numbers of a round on the way
 */
export function settleRig<T extends Found>(
  rig: LaidRig,
  start: SiteVector,
  foundFor: (floating: Floating, yoke: SiteVector) => T | null,
  withinM: number = SETTLED_M,
  from: Floating = hanging(rig, start),
): { readonly floating: Floating; readonly found: T } | null {
  let floating = from;
  let yoke = start;
  let pace = 1;
  let movedBefore = Number.MAX_VALUE;
  let lastStep: SiteVector | null = null;
  for (let round = 0; round < ROUNDS; round++) {
    const found = foundFor(floating, yoke);
    if (found === null) return null;
    const next = placed(rig, floating, found);
    const carried = distance(yoke, found.yoke);
    yoke = found.yoke;
    const step = next.rider && floating.rider ? subtract(next.rider, floating.rider) : ZERO;
    const moved = Math.max(...next.sheaves.map((s, i) => distance(s, floating.sheaves[i] ?? s)), norm(step), carried);
    const creeps = moved * SHRINKS_BY > movedBefore;
    movedBefore = moved;
    if (moved < SETTLED_M || (moved < withinM && !creeps) || (round === ROUNDS - 1 && moved < RESTS_M))
      return { floating: { ...floating, pulled: next.pulled, against: next.against }, found };
    pace = paced(pace, lastStep, step);
    lastStep = step;
    floating = floating.rider && next.rider ? { ...next, rider: addScaled(floating.rider, step, pace) } : next;
  }
  return null;
}

/** The floating parts as they hang before anything is known of the pulls. */
function hanging(rig: LaidRig, yoke: SiteVector): Floating {
  const sheaves = rig.mains.map((m) => alongPull(m, m.pointAt, yoke, null));
  return { sheaves, rider: hangingRider(rig, sheaves, yoke), pulled: false, against: null };
}

/**
 * How much of the next step to take, from how the last two compare: a step that shrinks evenly is taken as far as all that
 * would follow it (Irons and Tuck, 1969, from memory). Only the way to the answer; the answer is where no step is left.
 */
export function paced(pace: number, last: SiteVector | null, step: SiteVector): number {
  if (last === null) return 1;
  const change = subtract(step, last);
  const squared = dot(change, change);
  return squared > 0 ? Math.min(2.5, Math.max(0.3, (-pace * dot(last, change)) / squared)) : 1;
}

/** Does the tether's pulley ride this main line? */
export const isRidden = (rig: LaidRig, main: LaidMain): boolean =>
  rig.tether?.line.rides.includes(main.line.id) ?? false;

/** Does a tether draw its pulley along ropes that pull so, N? */
export function pullsAt(tetherN: number, ropesN: readonly number[]): boolean {
  const most = Math.max(...ropesN, 0);
  return most > 0 && tetherN > NO_PULL * most;
}

function placed(rig: LaidRig, floating: Floating, found: Found): Floating {
  const { yoke } = found;
  const sheaves = rig.mains.map((m, i) =>
    alongPull(m, floating.sheaves[i] ?? m.pointAt, yoke, isRidden(rig, m) ? floating.rider : null),
  );
  if (rig.tether === null || floating.rider === null) return { sheaves, rider: null, pulled: false, against: null };
  const ridden = rig.mains.flatMap((m, i) =>
    isRidden(rig, m)
      ? [{ sheave: sheaves[i] ?? m.pointAt, next: m.anchors[0]?.at ?? m.pointAt, tensionN: found.mainsN[i] ?? 0 }]
      : [],
  );
  const ropesN = ridden.map((r) => r.tensionN);
  if (!pullsAt(found.tetherN, ropesN))
    return { sheaves, rider: hangingRider(rig, sheaves, yoke), pulled: false, against: null };
  const pulls = [
    ...ridden.flatMap((r) => [
      { toward: r.sheave, tensionN: r.tensionN },
      { toward: r.next, tensionN: r.tensionN },
    ]),
    { toward: yoke, tensionN: found.tetherN },
  ];
  const { at, against } = rideRopes(pulls, floating.rider);
  return {
    sheaves,
    rider: at,
    pulled: true,
    against: against === null ? null : against === pulls.length - 1 ? "yoke" : against % 2 === 0 ? "tip" : "redirect",
  };
}

/** The sheave's place on its sling, from the pull of equal tensions toward the yoke and the next place of the rope. */
function alongPull(main: LaidMain, from: SiteVector, yoke: SiteVector, rider: SiteVector | null): SiteVector {
  const next = rider ?? main.anchors[0]?.at ?? yoke;
  const pull = addScaled(unit(subtract(yoke, from)), unit(subtract(next, from)), 1);
  return addScaled(main.pointAt, unit(pull), main.line.tip.reachM);
}

/** Where a pulley that nothing pulls lies on the ropes: nearest the yoke, between sheave and redirect. */
function hangingRider(rig: LaidRig, sheaves: readonly SiteVector[], yoke: SiteVector): SiteVector | null {
  const feet = rig.mains.flatMap((m, i) =>
    isRidden(rig, m) ? [foot(sheaves[i] ?? m.pointAt, m.anchors[0]?.at ?? m.pointAt, yoke)] : [],
  );
  const first = feet[0];
  return first ? feet.slice(1).reduce((sum, f, k) => addScaled(sum, subtract(f, sum), 1 / (k + 2)), first) : null;
}

function foot(a: SiteVector, b: SiteVector, p: SiteVector): SiteVector {
  const along = subtract(b, a);
  const squared = along[0] ** 2 + along[1] ** 2 + along[2] ** 2;
  const from = subtract(p, a);
  const t = squared > 0 ? (from[0] * along[0] + from[1] * along[1] + from[2] * along[2]) / squared : 0;
  return addScaled(a, along, Math.min(0.98, Math.max(0.02, t)));
}
