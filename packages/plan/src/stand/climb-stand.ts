import type { StandTarget } from "@gantline/engine";
import type { Spot } from "./try-stands.ts";

/** Where to go from a place, in the directions of the ladder: outward, to its right, up, the point outward within the tolerance, the vehicle turned. */
const MOVES: readonly (readonly [out: number, right: number, up: number, point: number, turn?: number])[] = [
  [1, 0, 0, 0],
  [-1, 0, 0, 0],
  [0, 1, 0, 0],
  [0, -1, 0, 0],
  [0, 0, 1, 0],
  [0, 0, -1, 0],
  [1, 0, 1, 0],
  [-1, 0, -1, 0],
  [1, 0, -1, 0],
  [-1, 0, 1, 0],
  [0.7, 0.7, 0, 0],
  [0.7, -0.7, 0, 0],
  [-0.7, 0.7, 0, 0],
  [-0.7, -0.7, 0, 0],
  [0, 1, 1, 0],
  [0, -1, 1, 0],
  [0, 1, -1, 0],
  [0, -1, -1, 0],
  [1, 0, -0.3, 0],
  [-1, 0, -0.3, 0],
  [0, 1, -0.3, 0],
  [0, -1, -0.3, 0],
  [1, 0, 0.3, 0],
  [-1, 0, 0.3, 0],
  [0, 1, 0.3, 0],
  [0, -1, 0.3, 0],
  [0, 0, 0, 1],
  [0, 0, 0, -1],
  [0, 0, 0, 0, 1],
  [0, 0, 0, 0, -1],
];
/** A step of 1 m turns the vehicle by so much, rad. */
const TURN_PER_M = (15 * Math.PI) / 180;

export interface ClimbOptions {
  /** First steps of place and height, m; halved where none is better, down to `withinM`. */
  readonly stepM: number;
  readonly withinM: number;
  /** Which bearing counts as outward at a place, rad: along what bars the way a step is not barred. Left out: where the ladder points. */
  readonly outwardRad?: (turntable: Spot["turntable"]) => number;
  /** Looks at most. */
  readonly most: number;
  readonly cancelled?: (() => boolean) | undefined;
}

/**
 * Pattern search from one place: whatever step is better is taken, and again for as long as it is. `better` says what is
 * at a place if it is better than what is now, and `null` if not. Ends at the limit, or where no step of the least size is better.
 */
export function climbFrom<T extends { readonly candidate: Spot }>(
  start: T,
  target: StandTarget,
  { stepM, withinM, most, outwardRad, cancelled }: ClimbOptions,
  better: (at: Spot, now: T) => T | null,
): T {
  let now = start;
  let looks = 0;
  for (let step = stepM; step >= withinM; ) {
    const before = now;
    for (const move of MOVES) {
      for (;;) {
        if (looks++ >= most || cancelled?.()) return now;
        const next = better(moved(now.candidate, target, move, step, outwardRad), now);
        if (next === null) break;
        now = next;
      }
    }
    if (now === before) step /= 2;
  }
  return now;
}

function moved(
  { turntable, point, turnRad = 0 }: Spot,
  target: StandTarget,
  [out, right, up, along, turn = 0]: (typeof MOVES)[number],
  step: number,
  outwardRad: ClimbOptions["outwardRad"],
): Spot {
  const bearing = outwardRad?.(turntable) ?? Math.atan2(point[0] - turntable[0], point[1] - turntable[1]);
  const [sin, cos] = [Math.sin(bearing), Math.cos(bearing)];
  const [px, py] = within(target, point[0] + along * step * sin, point[1] + along * step * cos);
  return {
    turntable: [turntable[0] + step * (out * sin + right * cos), turntable[1] + step * (out * cos - right * sin)],
    point: [px, py, Math.min(target.maxZM, Math.max(target.minZM, point[2] + step * up))],
    turnRad: turnRad + turn * step * TURN_PER_M,
  };
}

function within({ xM, yM, toleranceM }: StandTarget, x: number, y: number): readonly [number, number] {
  const far = Math.hypot(x - xM, y - yM);
  if (far <= toleranceM) return [x, y];
  const share = toleranceM / far;
  return [xM + (x - xM) * share, yM + (y - yM) * share];
}
