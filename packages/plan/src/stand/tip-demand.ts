import type { HungFrom, StandTarget, TipDemand } from "@gantline/engine";
import type { Plan } from "../schema/plan.ts";
import { aerialBelow, elevationsAt } from "./aerial-below.ts";
import { loadedMoments } from "./key-moments.ts";
import { remembered } from "./remembered.ts";
import { type Demand, demandSolver } from "./solve-demand.ts";
import { tetheredDemand } from "./tethered-demand.ts";

/** Elevations at which the rig is solved. */
const ELEVATIONS = 5;
/** Flatter than this the demand is that of this, rad: a point above the pivot is then out of any ladder's reach. */
const FLATTEST_RAD = (10 * Math.PI) / 180;
/** Heights above the lowest at which the load is held, m: close together where the demand falls steeply. */
const HEIGHTS_ABOVE_M = [0, 0.3, 0.7, 1.3, 2.2, 3.6, 6, 10, 16, 26] as const;
/** What is straight between two heights may be too little or too much by these shares before one between them is solved. */
const TOO_LITTLE = 0.01;
const TOO_MUCH = 0.04;
/** The lowest height at which the load is held at any pose is found to within this, m. */
const LOWEST_WITHIN_M = 0.1;
/** A load that would go farther than this from where it is wanted is not held here; less is the sling's, and left to the sweep, m. */
const GONE_M = 0.5;
/** Moments solved for every pose of a height: those that ask for most at its flattest, its steepest and in between. */
const MOMENTS_KEPT = 6;
/** Of what the one asks for that asks for most. */
const KEPT_FROM = 0.5;

/** What the tip carries for each bearing and elevation at one height, N; `null`: nothing holds the load there, or at all. */
type Layer = readonly (readonly (number | null)[])[] | null;

/**
 * How great a rated tip load does this rig ask for, by bearing and elevation of the ladder and height of its rigging points?
 *
 * The plan's own rig, solved by what the ledger solves it with: for each of these the vehicle is set back so that the
 * ladder brings the rigging points over the target; vehicle anchors go along. The answer is the worst over the stages
 * with something aboard (start, bends and end of each way) and over both travel cases, N. Where the policy lets bending
 * and compression decide as well, it is the rated load at which the worst of the three would be fully used. A height is not
 * held where at one of these moments no balance is found or the load would go away from where it is wanted. What a tether
 * holds hangs so closely on how the ladder points that it is worked out in its own way (`tetheredDemand`).
 * `null`: not known, for a mass, a rope's weight, a pull or an efficiency is missing.
 *
 * @param movedBy how far the aim lies from where the rigging points hang now, east and north, m: the load goes along
 */
export function tipDemand(
  plan: Plan,
  hung: HungFrom,
  target: StandTarget,
  bearingsRad: readonly number[],
  movedBy: readonly [number, number],
): TipDemand | null {
  // All of the plan that the balance of a rig rests on.
  const { rig, gear, evolution, policy, aerial, scene } = plan;
  const rests = { rig, gear, evolution, tipBasis: policy.tipBasis, aerial, wind: scene.wind };
  const key = JSON.stringify([rests, hung, target, bearingsRad, movedBy]);
  return rememberedDemand(key, () => solvedDemand(plan, hung, target, bearingsRad, movedBy));
}

const rememberedDemand = remembered<TipDemand | null>();

function solvedDemand(
  plan: Plan,
  hung: HungFrom,
  target: StandTarget,
  bearingsRad: readonly number[],
  movedBy: readonly [number, number],
): TipDemand | null {
  const { device } = plan.aerial;
  const flattest = Math.max(FLATTEST_RAD, device.elevationMinRad);
  const steepest = Math.max(flattest, device.elevationMaxRad);
  const elevationsRad = Array.from(
    { length: ELEVATIONS },
    (_, i) => flattest + ((steepest - flattest) * i) / (ELEVATIONS - 1),
  );
  const moments = loadedMoments(plan, movedBy);
  if (moments.some((m) => m.rig.tether !== null))
    return tetheredDemand(plan, { hung, target, bearingsRad, elevationsRad, moments });
  const layers = layersOf(target, layerSolver(plan, hung, target, { bearingsRad, elevationsRad, moments }));
  if (layers === null) return null;
  const heightsM = [...layers.keys()].sort((a, b) => a - b);
  const demandN = bearingsRad.flatMap((_, b) =>
    elevationsRad.flatMap((_, e) => withoutHoles(heightsM.map((z) => layers.get(z)?.[b]?.[e] ?? null))),
  );
  return { bearingsRad, elevationsRad, heightsM, demandN };
}

/** What is held at one height is held at the next: where no balance was found between two heights that have one, the greater of the two counts. */
const withoutHoles = (byHeight: readonly (number | null)[]): readonly (number | null)[] =>
  byHeight.map((is, k) => {
    const below = byHeight.slice(0, k).findLast((n) => n !== null) ?? null;
    const above = byHeight.slice(k).find((n) => n !== null) ?? null;
    return is ?? (below === null || above === null ? null : Math.max(below, above));
  });

/** The demand at as many heights as it takes; `null` where something is not known. */
function layersOf({ minZM, maxZM }: StandTarget, solve: (z: number) => Layer | "unknown"): Map<number, Layer> | null {
  const layers = new Map<number, Layer>();
  let unknown = false;
  const at = (z: number): Layer => {
    const known = layers.get(z);
    if (known !== undefined) return known;
    const found = unknown ? "unknown" : solve(z);
    if (found === "unknown") unknown = true;
    const layer = found === "unknown" ? null : found;
    layers.set(z, layer);
    return layer;
  };
  let heldM = minZM;
  if (at(minZM) === null && !unknown) {
    let notHeldM = minZM;
    heldM = HEIGHTS_ABOVE_M.map((up) => minZM + up).find((z) => z <= maxZM && at(z) !== null) ?? maxZM;
    if (at(heldM) !== null) {
      while (heldM - notHeldM > LOWEST_WITHIN_M) {
        const middle = (heldM + notHeldM) / 2;
        if (at(middle) === null) notHeldM = middle;
        else heldM = middle;
      }
    }
  }
  const heights = [...HEIGHTS_ABOVE_M.map((up) => heldM + up).filter((z) => z < maxZM), maxZM];
  const divide = (low: number, high: number): void => {
    if (high - low < 2 || unknown) return;
    const middle = (low + high) >> 1;
    const [a, b, c] = [low, middle, high].map((i) => heights[i] ?? maxZM) as [number, number, number];
    if (isStraight(at(a), at(b), at(c), (b - a) / (c - a))) return;
    divide(low, middle);
    divide(middle, high);
  };
  divide(0, heights.length - 1);
  return unknown ? null : layers;
}

/** Is the middle layer what is straight between the other two, or little less? */
function isStraight(low: Layer, middle: Layer, high: Layer, share: number): boolean {
  if (low === null || middle === null || high === null) return low === middle && middle === high;
  return middle.every((row, b) =>
    row.every((is, e) => {
      const [below, above] = [low[b]?.[e] ?? null, high[b]?.[e] ?? null];
      if (is === null || below === null || above === null) return is === below && is === above;
      const straight = below * (1 - share) + above * share;
      return is <= straight * (1 + TOO_LITTLE) && straight <= is * (1 + TOO_MUCH);
    }),
  );
}

/** Solves the rig with its rigging points at one height over the target. */
function layerSolver(
  plan: Plan,
  hung: HungFrom,
  { xM, yM, maxZM }: StandTarget,
  {
    bearingsRad,
    elevationsRad,
    moments,
  }: {
    readonly bearingsRad: readonly number[];
    readonly elevationsRad: readonly number[];
    readonly moments: readonly Plan[];
  },
): (z: number) => Layer | "unknown" {
  const demandAt = demandSolver(plan, { awayM: GONE_M, slackM: null });
  const solved = (z: number, moment: number, b: number, e: number): Demand => {
    const [bearing, elevation] = [bearingsRad[b] ?? 0, elevationsRad[e] ?? 0];
    const aerial = aerialBelow(plan, hung, [xM, yM, z], bearing, elevation);
    return aerial === null ? 0 : demandAt({ ...(moments[moment] ?? plan), aerial });
  };
  const all = [...moments.keys()];
  const lastBearing = bearingsRad.length - 1;
  const posesAt = (from: number, to: number) =>
    [
      [0, from],
      [lastBearing >> 1, (from + to) >> 1],
      [lastBearing, to],
    ] as const;
  // What is not known does not depend on the pose: once for every moment.
  const [steepest] = posesAt(elevationsRad.length - 1, elevationsRad.length - 1);
  const unknown = all.some((m) => solved(maxZM, m, ...steepest) === "unknown");
  /** The moment that was not held when last one was not: likely the one that is not held next. */
  let first = 0;
  /** The demand of every moment at a pose; as soon as one is not held, that one. */
  const look = (z: number, b: number, e: number): Look => {
    const demands: number[] = [];
    for (const m of [first, ...all.filter((i) => i !== first)]) {
      const demand = solved(z, m, b, e);
      if (typeof demand !== "number") {
        first = m;
        return { demands: null, notHeld: m };
      }
      demands[m] = demand;
    }
    return { demands, notHeld: null };
  };
  return (z) => {
    if (unknown) return "unknown";
    const [from, to] = elevationsAt(plan, hung, z, elevationsRad);
    const looks = posesAt(from, to).map(([b, e]) => ({ b, e, ...look(z, b, e) }));
    if (looks.every((l) => l.demands === null)) return null;
    const kept = mostAsking(looks);
    const layer = bearingsRad.map(() => elevationsRad.map((): number | null => null));
    for (const [b, row] of layer.entries()) {
      for (let e = from; e <= to; e++) {
        const looked = looks.find((l) => l.b === b && l.e === e);
        row[e] = looked ? mostOf(looked.demands) : worstOf(kept, (m) => solved(z, m, b, e));
      }
      for (const e of elevationsRad.keys()) if (e < from || e > to) row[e] = row[e < from ? from : to] ?? null;
    }
    return layer;
  };
}

const mostOf = (demands: readonly number[] | null): number | null => demands && Math.max(...demands);

/** The greatest of some demands; `null` as soon as one is not held. */
function worstOf(moments: readonly number[], demandOf: (moment: number) => Demand): number | null {
  let most = 0;
  for (const m of moments) {
    const demand = demandOf(m);
    if (typeof demand !== "number") return null;
    most = Math.max(most, demand);
  }
  return most;
}

/** All moments at one pose. */
type Look =
  | { readonly demands: readonly number[]; readonly notHeld: null }
  | { readonly demands: null; readonly notHeld: number };

/** Of several looks the moments that are not held, then those that ask for nearly most, first those that ask for most. */
function mostAsking(looks: readonly Look[]): readonly number[] {
  const whole = looks.flatMap((l) => (l.demands === null ? [] : [l.demands]));
  const notHeld = new Set(looks.flatMap((l) => l.notHeld ?? []));
  const share = (i: number): number => Math.max(...whole.map((look) => (look[i] ?? 0) / Math.max(1e-9, ...look)));
  const asking = [...(whole[0] ?? []).keys()]
    .filter((i) => !notHeld.has(i) && share(i) > KEPT_FROM)
    .sort((a, b) => share(b) - share(a));
  return [...notHeld, ...asking].slice(0, MOMENTS_KEPT);
}
