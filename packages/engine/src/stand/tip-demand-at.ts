import { stepOf } from "./rating-steps.ts";
import type { TipDemand } from "./stand-question.ts";

/** A `TipDemand` laid out for looking up. */
export interface DemandTable {
  readonly bearings: Float64Array;
  readonly elevations: Float64Array;
  readonly heights: Float64Array;
  /** `NOT_HELD` where nothing holds the load. */
  readonly demandN: Float64Array;
  /** `NOT_HELD` where the load is held at no elevation; empty where nothing is said of it. */
  readonly steepestRad: Float64Array;
}

/** Nothing holds the load there, N. */
export const NOT_HELD = -2;

/** Lays out a table; `null` if it is empty. */
export function demandTable(demand: TipDemand): DemandTable | null {
  const { bearingsRad, elevationsRad, heightsM, demandN, steepestRad } = demand;
  if (demandN.length === 0) return null;
  return {
    bearings: Float64Array.from(bearingsRad),
    elevations: Float64Array.from(elevationsRad),
    heights: Float64Array.from(heightsM),
    demandN: Float64Array.from(demandN, (d) => d ?? NOT_HELD),
    steepestRad: Float64Array.from(steepestRad ?? [], (s) => s ?? NOT_HELD),
  };
}

/** Where something lies among rising numbers: the entry before it, and how far it is on to the next. */
interface Between {
  before: number;
  share: number;
}

const between = (): Between => ({ before: 0, share: 0 });

function place(at: Between, rising: Float64Array, x: number): void {
  const above = stepOf(rising, x);
  at.before = Math.max(0, above - 1);
  const from = rising[at.before] as number;
  const inside = above > 0 && above < rising.length;
  at.share = inside ? (x - from) / ((rising[above] as number) - from) : 0;
}

/** Looks up what the tip carries: first `toward` a bearing, then at each elevation and height. */
export function demandLookup({ bearings, elevations, heights, demandN, steepestRad }: DemandTable): {
  toward(sin: number, cos: number): void;
  /** How steep the ladder may stand with the point at a height, rad; `NOT_HELD` where the load is held at no elevation. */
  steepest(heightM: number): number;
  /** N; `NOT_HELD` where nothing holds the load. */
  at(elevationRad: number, heightM: number): number;
  /** The next entry above a height at which the load is held, at the same bearing and elevation, m; `null` for none. */
  heldAbove(elevationRad: number, heightM: number): number | null;
} {
  const [b, e, h] = [between(), between(), between()];
  const first = bearings[0] as number;
  const span = (bearings[bearings.length - 1] as number) - first;
  const rows = elevations.length;
  const columns = heights.length;

  function alongHeight(of: Float64Array, row: number): number {
    const from = of[row * columns + h.before] as number;
    if (h.share === 0 || from === NOT_HELD) return from;
    const to = of[row * columns + h.before + 1] as number;
    return to === NOT_HELD ? NOT_HELD : from + h.share * (to - from);
  }

  function alongElevation(layer: number): number {
    const row = layer * rows + e.before;
    const from = alongHeight(demandN, row);
    if (e.share === 0 || from === NOT_HELD) return from;
    const to = alongHeight(demandN, row + 1);
    return to === NOT_HELD ? NOT_HELD : from + e.share * (to - from);
  }

  return {
    toward(sin, cos) {
      if (bearings.length === 1) return;
      const turn = Math.atan2(sin, cos) - first;
      const on = turn - 2 * Math.PI * Math.floor(turn / (2 * Math.PI));
      // Beyond the last the nearer of the two ends counts.
      place(b, bearings, first + (on > span && on - span > 2 * Math.PI - on ? 0 : on));
    },
    at,
    steepest,
    heldAbove(elevationRad, heightM) {
      for (const height of heights)
        if (height > heightM && at(elevationRad, height) !== NOT_HELD && elevationRad <= steepest(height))
          return height;
      return null;
    },
  };

  function steepest(heightM: number): number {
    if (steepestRad.length === 0) return Number.MAX_VALUE;
    place(h, heights, heightM);
    const from = alongHeight(steepestRad, b.before);
    if (b.share === 0 || from === NOT_HELD) return from;
    const to = alongHeight(steepestRad, b.before + 1);
    return to === NOT_HELD ? NOT_HELD : from + b.share * (to - from);
  }

  function at(elevationRad: number, heightM: number): number {
    place(e, elevations, elevationRad);
    place(h, heights, heightM);
    const from = alongElevation(b.before);
    if (b.share === 0 || from === NOT_HELD) return from;
    const to = alongElevation(b.before + 1);
    return to === NOT_HELD ? NOT_HELD : from + b.share * (to - from);
  }
}
