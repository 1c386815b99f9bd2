import type { SiteVector } from "../base/vector.ts";
import type { AerialDevice, AerialPlace } from "./device.ts";
import { vehiclePoint } from "./vehicle-point.ts";

/** A jack's foot on the ground. */
export interface JackFoot {
  readonly id: string;
  readonly position: SiteVector;
}

/** A line between two neighbouring jacks over which the vehicle could tip. Outside lies to the right, going from `from` to `to`. */
export interface JackLine {
  readonly from: JackFoot;
  readonly to: JackFoot;
}

/** Where the jacks stand, all at the turntable's ground level; `reach` (0 to 1, 1 if left out) shortens a jack sideways. */
export function jackFeet(
  device: AerialDevice,
  place: AerialPlace,
  reach: Readonly<Record<string, number>> = {},
): readonly JackFoot[] {
  return device.jacks.map(({ id, forwardM, rightM }) => ({
    id,
    position: vehiclePoint(place, { forwardM, rightM: rightM * (reach[id] ?? 1), upM: 0 }),
  }));
}

/**
 * Over which lines could the vehicle tip?
 *
 * The sides of the convex hull of the jacks' feet in plan, counterclockwise seen from above. A jack inside the hull, or
 * on a side, bears nothing and is left out. Fewer than three feet, or feet in one line, hold nothing up: no lines.
 */
export function jackLines(feet: readonly JackFoot[]): readonly JackLine[] {
  const sorted = [...feet].sort((a, b) => a.position[0] - b.position[0] || a.position[1] - b.position[1]);
  const lower = chain(sorted);
  const upper = chain(sorted.reverse());
  const hull = [...lower.slice(0, -1), ...upper.slice(0, -1)];
  if (hull.length < 3) return [];
  return hull.map((from, i) => ({ from, to: hull[(i + 1) % hull.length] as JackFoot }));
}

/** The lower (or, given the feet backwards, the upper) half of the hull: Andrew's monotone chain. */
function chain(feet: readonly JackFoot[]): readonly JackFoot[] {
  const kept: JackFoot[] = [];
  for (const foot of feet) {
    for (let last = kept.at(-1), before = kept.at(-2); last && before && !turnsLeft(before, last, foot); ) {
      kept.pop();
      last = kept.at(-1);
      before = kept.at(-2);
    }
    kept.push(foot);
  }
  return kept;
}

/** Does the way a → b → c turn left, with b more than a thousandth of a millimetre off the line from a to c? */
function turnsLeft(a: JackFoot, b: JackFoot, c: JackFoot): boolean {
  const [ax, ay] = a.position;
  const cx = c.position[0] - ax;
  const cy = c.position[1] - ay;
  return (b.position[0] - ax) * cy - (b.position[1] - ay) * cx > 1e-6 * Math.hypot(cx, cy);
}
