import type { StandTarget } from "@gantline/engine";
import type { Spot } from "./try-stands.ts";

/** Where to go from a place, in the directions of the ladder: outward, to its right, up, and the point outward within the tolerance. */
const MOVES: readonly (readonly [out: number, right: number, up: number, point: number])[] = [
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
  [0, 0, 0, 1],
  [0, 0, 0, -1],
];

export interface ClimbOptions {
  /** First steps of place and height, m; halved where none is better, down to `withinM`. */
  readonly stepM: number;
  readonly withinM: number;
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
  { stepM, withinM, most, cancelled }: ClimbOptions,
  better: (at: Spot, now: T) => T | null,
): T {
  let now = start;
  let looks = 0;
  for (let step = stepM; step >= withinM; ) {
    const before = now;
    for (const move of MOVES) {
      for (;;) {
        if (looks++ >= most || cancelled?.()) return now;
        const next = better(moved(now.candidate, target, move, step), now);
        if (next === null) break;
        now = next;
      }
    }
    if (now === before) step /= 2;
  }
  return now;
}

function moved(
  { turntable, point }: Spot,
  target: StandTarget,
  [out, right, up, along]: (typeof MOVES)[number],
  step: number,
): Spot {
  const [east, north] = [point[0] - turntable[0], point[1] - turntable[1]];
  const far = Math.hypot(east, north) || 1;
  const [sin, cos] = [east / far, north / far];
  const [px, py] = within(target, point[0] + along * step * sin, point[1] + along * step * cos);
  return {
    turntable: [turntable[0] + step * (out * sin + right * cos), turntable[1] + step * (out * cos - right * sin)],
    point: [px, py, Math.min(target.maxZM, Math.max(target.minZM, point[2] + step * up))],
  };
}

function within({ xM, yM, toleranceM }: StandTarget, x: number, y: number): readonly [number, number] {
  const far = Math.hypot(x - xM, y - yM);
  if (far <= toleranceM) return [x, y];
  const share = toleranceM / far;
  return [xM + (x - xM) * share, yM + (y - yM) * share];
}
