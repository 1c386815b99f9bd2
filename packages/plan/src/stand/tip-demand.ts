import {
  asSite,
  distance,
  type HungFrom,
  poseAerial,
  type StandTarget,
  type TipDemand,
  type Utilisations,
} from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import { feelAerial } from "../feel-aerial.ts";
import { sumLoad } from "../rig/sum-load.ts";
import type { Plan } from "../schema/plan.ts";
import { solveRig } from "../solve-rig.ts";
import { aerialBelow, elevationsAt } from "./aerial-below.ts";
import { loadedMoments } from "./key-moments.ts";

/** Elevations at which the rig is solved. */
const ELEVATIONS = 5;
/** Flatter than this the demand is that of this, rad: a point above the pivot is then out of any ladder's reach. */
const FLATTEST_RAD = (10 * Math.PI) / 180;
/** A rated load to measure against, N: use of a rating is proportional to it. */
const MEASURE_N = 1000;
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

/** What the tip carries for each bearing and elevation at one height, N; `null`: nothing holds the load there, or at all. */
type Layer = readonly (readonly (number | null)[])[] | null;

/**
 * How great a rated tip load does this rig ask for, by bearing and elevation of the ladder and height of its rigging points?
 *
 * The plan's own rig, solved by what the ledger solves it with: for each of these the vehicle is set back so that the
 * ladder brings the rigging points over the target; vehicle anchors go along. The answer is the worst over the stages
 * with something aboard (start, bends and end of each way) and over both travel cases, N. Where the policy lets bending
 * and compression decide as well, it is the rated load at which the worst of the three would be fully used. A height is not
 * held where at one of these moments no balance is found, or, without a tether, the load would go away from where it
 * is wanted; with a tether it counts as what it is where it goes. `null`: not known, for a mass, a rope's weight, a pull or an efficiency is missing.
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
  const { device } = plan.aerial;
  const flattest = Math.max(FLATTEST_RAD, device.elevationMinRad);
  const steepest = Math.max(flattest, device.elevationMaxRad);
  const elevationsRad = Array.from(
    { length: ELEVATIONS },
    (_, i) => flattest + ((steepest - flattest) * i) / (ELEVATIONS - 1),
  );
  const layers = layersOf(
    target,
    layerSolver(plan, hung, target, { bearingsRad, elevationsRad, moments: loadedMoments(plan, movedBy) }),
  );
  if (layers === null) return null;
  const heightsM = [...layers.keys()].sort((a, b) => a - b);
  const demandN = bearingsRad.flatMap((_, b) =>
    elevationsRad.flatMap((_, e) => heightsM.map((z) => layers.get(z)?.[b]?.[e] ?? null)),
  );
  return { bearingsRad, elevationsRad, heightsM, demandN };
}

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
  { xM, yM }: StandTarget,
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
  return (z) => {
    const solved = (moment: Plan, b: number, e: number): number | "unknown" | null => {
      const [bearing, elevation] = [bearingsRad[b] ?? 0, elevationsRad[e] ?? 0];
      const aerial = aerialBelow(plan, hung, [xM, yM, z], bearing, elevation);
      return aerial === null ? 0 : demandAt({ ...moment, aerial });
    };
    const [from, to] = elevationsAt(plan, hung, z, elevationsRad);
    const looks: (number | null)[][] = [];
    const lastBearing = bearingsRad.length - 1;
    for (const [b, e] of [
      [0, from],
      [lastBearing >> 1, (from + to) >> 1],
      [lastBearing, to],
    ] as const) {
      const look = moments.map((moment) => solved(moment, b, e));
      if (look.includes("unknown")) return "unknown";
      looks.push(look as (number | null)[]);
    }
    if (looks.every((look) => look.includes(null))) return null;
    const kept = mostAsking(looks);
    const layer = bearingsRad.map(() => elevationsRad.map((): number | null => null));
    for (const [b, row] of layer.entries()) {
      for (let e = from; e <= to; e++) {
        const demands = kept.map((m) => solved(moments[m] ?? plan, b, e));
        if (!demands.includes(null)) row[e] = Math.max(...(demands as number[]));
      }
      for (const e of elevationsRad.keys()) if (e < from || e > to) row[e] = row[e < from ? from : to] ?? null;
    }
    return layer;
  };
}

/** The moments that ask for most in one of several looks at all of them; what is not held asks for more than anything. */
function mostAsking(looks: readonly (readonly (number | null)[])[]): readonly number[] {
  const most = looks.map((look) => Math.max(1e-9, ...look.map((n) => n ?? 0)));
  const share = (i: number): number =>
    Math.max(...looks.map((look, k) => (look[i] ?? 2 * (most[k] ?? 1)) / (most[k] ?? 1)));
  return [...(looks[0] ?? []).keys()].sort((a, b) => share(b) - share(a)).slice(0, MOMENTS_KEPT);
}

/** The demand of one position, N; `null`: nothing holds the load there. */
function demandAt(plan: Plan): number | "unknown" | null {
  const { device, place, pose } = plan.aerial;
  const straight = poseAerial(device, place, pose);
  const { posed, laid, outcome } = solveRig(plan, straight, sumLoad(plan));
  if (!outcome.ok) return outcome.code === "unknown" ? "unknown" : null;
  // What a tether holds hangs on how the ladder points, to within less than the table is fine.
  const tethered = plan.rig.tether !== null;
  const { yoke } = outcome.state;
  if (!tethered && distance(yoke, asSite(plan.rig.load.positionM)) > GONE_M) return null;
  if (laid.mains.some((m) => m.efficiencies[0] === null) || laid.unweighed.length > 0) return "unknown";
  const stand = { geometry: { posed }, rating: { ratedTipLoadN: MEASURE_N, reason: "" }, ratedTipping: [] };
  const { motion } = plan.rig.load;
  const cases: readonly TravelCase[] = motion === "rest" ? ["raise", "lower"] : [motion];
  const counted = plan.policy.tipBasis === "all" ? ALL_USES : RESULTANT_ALONE;
  const ratios = cases.flatMap((travel) => {
    const { utilisations } = feelAerial(plan, stand, outcome.state, travel);
    return counted.map((kind) => utilisations[kind].ratio ?? 0);
  });
  return Math.max(...ratios) * MEASURE_N;
}

const RESULTANT_ALONE: readonly (keyof Utilisations)[] = ["resultant"];
const ALL_USES: readonly (keyof Utilisations)[] = ["resultant", "bending", "compression"];
