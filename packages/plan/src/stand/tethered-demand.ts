import type { HungFrom, StandTarget, TipDemand } from "@gantline/engine";
import { HELD_WITHIN_M } from "../rig/held-there.ts";
import { sumLoad } from "../rig/sum-load.ts";
import type { Plan } from "../schema/plan.ts";
import { aerialBelow } from "./aerial-below.ts";
import { bearingsHeld, type HeldBearing } from "./bearings-held.ts";
import { demandSolver } from "./solve-demand.ts";

const DEG = Math.PI / 180;
/** Entries of height, at most so far apart, m. */
const HEIGHT_STEP_M = 1.5;
const MOST_HEIGHTS = 12;
/** The lowest height at which the load is held is found to within this, m. */
const LOWEST_WITHIN_M = 0.2;
/** How steep the ladder may stand is found to within this, rad. */
const STEEPEST_WITHIN_RAD = DEG;
/** Where none holds at the flattest elevation that reaches a height, so much flatter is looked, rad. */
const FLATTER_RAD = [0, 5 * DEG, 12 * DEG];
/** Bearings are looked at with the point so high between lowest and highest, as a share. */
const LOOKED_AT = [1, 0.75, 0.5, 0.25];
/** Moments whose demand is worked out at every entry: those that ask for most where it was looked first. */
const MOMENTS_KEPT = 4;

interface Asked {
  readonly hung: HungFrom;
  readonly target: StandTarget;
  readonly bearingsRad: readonly number[];
  readonly elevationsRad: readonly number[];
  readonly moments: readonly Plan[];
}

/**
 * What the tip carries, and how steep the ladder may stand, where the load is drawn in by a tether.
 *
 * A tether draws the load toward the returning ropes, so it holds it on its way only if the ladder points along that way, to
 * some degrees, and only if there is room under the ladder for its tackle. So the table has entries where the load
 * begins to be held (`bearingsHeld`), and for each height the steepest elevation at which at every moment a balance is
 * found, the load stays where it is wanted (to what counts as held, and the tolerance over the target), the tackle is neither
 * too short nor too long and the load keeps off the ladder. Flatter is taken to hold too, down to the flattest that reaches
 * the lowest height. `null`: not known.
 */
export function tetheredDemand(plan: Plan, asked: Asked): TipDemand | null {
  const { hung, target, elevationsRad, moments } = asked;
  const { device, place } = plan.aerial;
  const { minZM, maxZM, xM, yM, toleranceM } = target;
  const demandAt = demandSolver(plan, { awayM: HELD_WITHIN_M + toleranceM, slackM: toleranceM });
  const solved = (z: number, bearing: number, elevation: number, moment: Plan) => {
    const aerial = aerialBelow(plan, hung, [xM, yM, z], bearing, elevation);
    return aerial === null ? null : demandAt({ ...moment, aerial });
  };
  const steepest = elevationsRad.at(-1) ?? Math.PI / 2;
  /** The flattest that reaches a height, and flatter ones: a steepest is looked for from the first of these that holds. */
  const flatAt = (z: number): readonly number[] => {
    const rise = (z - place.groundZM - device.pivotHeightM) / device.lengthMaxM;
    const reaching = Math.asin(Math.min(1, Math.max(0, rise)));
    return FLATTER_RAD.map((by) => Math.min(steepest, Math.max(elevationsRad[0] ?? 0, reaching - by)));
  };
  if (moments.some((m) => solved(maxZM, asked.bearingsRad[0] ?? 0, steepest, m) === "unknown")) return null;

  // Those that are not held are looked at first: likely they are not held next time either.
  const first = [...heaviestOfAlike(moments)];
  const holds = (z: number, bearing: number, elevation: number): boolean => {
    const not = first.findIndex((m) => typeof solved(z, bearing, elevation, m) !== "number");
    if (not < 0) return true;
    first.unshift(...first.splice(not, 1));
    return false;
  };

  const flatHeld = (z: number, bearing: number): number | null => flatAt(z).find((e) => holds(z, bearing, e)) ?? null;
  /** @param below the steepest at a lower height, where that is known: the higher, the steeper */
  const steepestAt = (bearing: number, z: number, below: number | null): number | null => {
    const flat = below ?? flatHeld(z, bearing);
    if (flat === null) return null;
    if (flat > steepest || holds(z, bearing, steepest)) return Math.PI / 2;
    let [held, not] = [flat, steepest];
    while (not - held > STEEPEST_WITHIN_RAD) {
      const middle = (held + not) / 2;
      if (holds(z, bearing, middle)) held = middle;
      else not = middle;
    }
    return held;
  };

  const ways = waysOf(moments, target);
  const pose = LOOKED_AT.map((share) => minZM + (maxZM - minZM) * share)
    .flatMap((z) => flatAt(z).map((e) => ({ z, e })))
    .find(({ z, e }) => [...ways, ...asked.bearingsRad].some((b) => holds(z, b, e)));
  const bearings = bearingsHeld(asked.bearingsRad, ways, (b) => pose !== undefined && holds(pose.z, b, pose.e));
  const leading = [...new Set(bearings.flatMap((b) => b.like ?? []))];
  const heightsM = heightsFrom(
    lowestHeld(target, (z) => leading.some((b) => flatHeld(z, b) !== null)),
    target,
  );
  const entries = new Map(
    leading.map((bearing) => {
      const steep: (number | null)[] = [];
      for (const z of heightsM) steep.push(steepestAt(bearing, z, steep.at(-1) ?? null));
      const middle = heightsM.length >> 1;
      const kept = mostAsking(moments, (m) => solved(heightsM[middle] ?? maxZM, bearing, steep[middle] ?? steepest, m));
      const byHeight = heightsM.map((z, k) => {
        const most = steep[k] ?? null;
        if (most === null) return null;
        const known = new Map<number, number>();
        return elevationsRad.map((e) => {
          const at = Math.min(most, Math.max(flatAt(z)[0] ?? e, e));
          const demand = known.get(at) ?? Math.max(...kept.map((m) => asNumber(solved(z, bearing, at, m))));
          known.set(at, demand);
          return demand;
        });
      });
      const demandN = elevationsRad.map((_, e) => byHeight.map((all) => all?.[e] ?? null));
      return [bearing, { steep, demandN }] as const;
    }),
  );
  const of = ({ like }: HeldBearing) => (like === null ? null : (entries.get(like) ?? null));
  return {
    bearingsRad: bearings.map((b) => b.bearingRad),
    elevationsRad,
    heightsM,
    demandN: bearings.flatMap((b) => of(b)?.demandN.flat() ?? elevationsRad.flatMap(() => heightsM.map(() => null))),
    steepestRad: bearings.flatMap((b) => of(b)?.steep ?? heightsM.map(() => null)),
  };
}

const asNumber = (demand: number | "unknown" | null): number => (typeof demand === "number" ? demand : 0);

/** Bearings of a ladder that points along the way on which a load is drawn in: from where it is wanted to the target. */
function waysOf(moments: readonly Plan[], { xM, yM }: StandTarget): readonly number[] {
  const ways = moments.flatMap(({ rig }) => {
    const [x, y] = rig.load.positionM;
    return Math.hypot(xM - x, yM - y) > HELD_WITHIN_M ? [Math.atan2(xM - x, yM - y)] : [];
  });
  return [...new Set(ways.map((b) => Math.round(b / DEG) * DEG))];
}

/** The lowest height at which the load is held; the highest where it is at none. */
function lowestHeld({ minZM, maxZM }: StandTarget, holds: (z: number) => boolean): number {
  if (holds(minZM)) return minZM;
  let [not, held] = [minZM, maxZM];
  while (held - not > LOWEST_WITHIN_M) {
    const middle = (held + not) / 2;
    if (holds(middle)) held = middle;
    else not = middle;
  }
  return held;
}

/** Heights from the lowest that is held up, and one below it that is not. */
function heightsFrom(heldM: number, { minZM, maxZM }: StandTarget): readonly number[] {
  const steps = Math.min(MOST_HEIGHTS, Math.max(1, Math.ceil((maxZM - heldM) / HEIGHT_STEP_M)));
  const held = Array.from({ length: steps + 1 }, (_, k) => heldM + ((maxZM - heldM) * k) / steps);
  const below = heldM - LOWEST_WITHIN_M;
  return [...(below > minZM ? [below] : []), ...new Set(held)];
}

/** Whether a load is held hangs on where it is and on its ropes, hardly on its mass: of moments that differ by that alone the heaviest. */
function heaviestOfAlike(moments: readonly Plan[]): readonly Plan[] {
  const alike = new Map<string, { readonly m: Plan; readonly massKg: number }>();
  for (const m of moments) {
    const { parts: _, motion: __, ...load } = m.rig.load;
    const key = JSON.stringify({ ...m.rig, load });
    const massKg = sumLoad(m).massKg ?? 0;
    if (massKg > (alike.get(key)?.massKg ?? -1)) alike.set(key, { m, massKg });
  }
  return [...alike.values()].map(({ m }) => m);
}

/** Of all moments those that ask for most at one pose. */
function mostAsking(moments: readonly Plan[], demandOf: (m: Plan) => number | "unknown" | null): readonly Plan[] {
  const asking = moments.map((m) => ({ m, demand: asNumber(demandOf(m)) }));
  return asking
    .sort((a, b) => b.demand - a.demand)
    .slice(0, MOMENTS_KEPT)
    .map(({ m }) => m);
}
