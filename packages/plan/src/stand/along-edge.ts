import type { PlanPoint, StandParking } from "@gantline/engine";

/** On what bearing runs the side of the parking ground that is nearest to a place, rad? What bars a vehicle there mostly runs along it. */
export const alongEdge = (parking: readonly StandParking[]): ((at: PlanPoint) => number) => {
  const sides = parking.flatMap(({ outline }) =>
    outline.map((from, i) => ({ from, to: outline[(i + 1) % outline.length] ?? from })),
  );
  return (at) => {
    let least = Number.MAX_VALUE;
    let bearing = 0;
    for (const { from, to } of sides) {
      const away = toSideM(at, from, to);
      if (away >= least) continue;
      least = away;
      bearing = Math.atan2(to[0] - from[0], to[1] - from[1]);
    }
    return bearing;
  };
};

function toSideM([x, y]: PlanPoint, [ax, ay]: PlanPoint, [bx, by]: PlanPoint): number {
  const [dx, dy] = [bx - ax, by - ay];
  const squared = dx * dx + dy * dy;
  const t = squared > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / squared)) : 0;
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
}
