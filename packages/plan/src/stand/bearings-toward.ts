import { pointInPolygon, type StandParking } from "@gantline/engine";
import type { Plan } from "../schema/plan.ts";
import type { StandAim } from "./stand-types.ts";

/** Bearings on which the demand is worked out are no farther apart than this, rad. */
const APART_RAD = (60 * Math.PI) / 180;
/** Ends are rounded outward to this, rad: a little more ground then asks for the same bearings. */
const ROUND_RAD = (15 * Math.PI) / 180;
/** Seen over more than this, ground counts as all round, rad. */
const NEARLY_ROUND_RAD = (240 * Math.PI) / 180;

/**
 * Bearings on which a ladder standing on the parking ground points to an aim: from one end to the other, evenly, rising; all
 * round where the ground lies round the aim. Only ground that the ladder's length reaches from counts, if any does.
 */
export function bearingsToward(
  plan: Plan,
  { xM, yM }: Pick<StandAim, "xM" | "yM">,
  parking: readonly StandParking[],
): readonly number[] {
  const reachM = plan.aerial.device.lengthMaxM;
  const all = parking.flatMap(({ outline }) => pointsAlong(outline));
  const near = all.filter(([x, y]) => Math.hypot(xM - x, yM - y) <= reachM);
  const points = near.length > 0 ? near : all;
  const inside = parking.some((p) => pointInPolygon(p.outline, [xM, yM]));
  const bearings = points.map(([x, y]) => Math.atan2(xM - x, yM - y)).sort((a, b) => a - b);
  // The widest gap between neighbours is where no ladder points from.
  let widest = 0;
  let from = bearings[0] ?? 0;
  for (const [i, bearing] of bearings.entries()) {
    const next = bearings[i + 1] ?? (bearings[0] ?? 0) + 2 * Math.PI;
    if (next - bearing <= widest) continue;
    widest = next - bearing;
    from = next;
  }
  const round = inside || 2 * Math.PI - widest > NEARLY_ROUND_RAD;
  const first = round ? 0 : Math.floor(from / ROUND_RAD) * ROUND_RAD;
  const last = round ? 2 * Math.PI : Math.ceil((from + 2 * Math.PI - widest) / ROUND_RAD) * ROUND_RAD;
  const steps = Math.max(1, Math.ceil((last - first) / APART_RAD - 1e-9));
  return last - first < 1e-9
    ? [first]
    : Array.from({ length: steps + 1 }, (_, i) => first + ((last - first) * i) / steps);
}

/** Corners and points along the sides. */
const pointsAlong = (outline: StandParking["outline"]): readonly (readonly [number, number])[] =>
  outline.flatMap(([x, y], i) => {
    const [nextX, nextY] = outline[(i + 1) % outline.length] ?? [x, y];
    return Array.from(
      { length: PARTS },
      (_, k) => [x + ((nextX - x) * k) / PARTS, y + ((nextY - y) * k) / PARTS] as const,
    );
  });

const PARTS = 8;
