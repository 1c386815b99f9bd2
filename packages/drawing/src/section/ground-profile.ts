import { cutOutlineByVerticalPlane } from "@gantline/engine";
import { type Plan, parkingLevel } from "@gantline/plan";
import type { WorldPoint } from "../primitives.ts";
import type { DrawnSection } from "./section-frame.ts";

/** A stretch of the section line over something drawn on the ground. */
export interface GroundStretch {
  readonly kind: "parking" | "gap" | "water" | "keepOut";
  readonly name: string;
  readonly from: WorldPoint;
  readonly to: WorldPoint;
  /** Fall of the ground along the section, rad, positive rising to the right; 0 for areas. */
  readonly riseRad: number;
}

export interface GroundProfile {
  /** From left to right; steps are upright. */
  readonly line: readonly WorldPoint[];
  readonly stretches: readonly GroundStretch[];
}

/**
 * Where does the section plane meet the ground between two places across?
 * Gap and water lie at their own level, parking ground slopes, all else is at the scene's ground level.
 */
export function groundProfile(plan: Plan, frame: DrawnSection, fromM: number, toM: number): GroundProfile {
  const { scene } = plan;
  const cut = (outline: readonly (readonly [number, number])[]) =>
    cutOutlineByVerticalPlane(outline, frame.origin, frame.bearingRad);
  const parking = scene.parking.flatMap((ground) =>
    cut(ground.outline).map(([a, b]): GroundStretch => {
      const level = (x: number): WorldPoint => {
        const [east, north] = frame.fromSection([x, 0]);
        return [x, parkingLevel(ground, [east, north])];
      };
      const from = level(a);
      const to = level(b);
      return { kind: "parking", name: ground.name, from, to, riseRad: Math.atan2(to[1] - from[1], b - a) };
    }),
  );
  const areas = scene.areas.flatMap((area) =>
    cut(area.outline).map(
      ([a, b]): GroundStretch => ({
        kind: area.kind,
        name: area.name,
        from: [a, area.zM],
        to: [b, area.zM],
        riseRad: 0,
      }),
    ),
  );
  const sunk = areas.filter((s) => s.kind !== "keepOut");
  const levels = [...sunk, ...parking];
  const levelAt = (x: number, towards: number): number => {
    const on = levels.find((s) => x + towards > s.from[0] && x + towards < s.to[0]);
    if (!on) return scene.groundZM;
    const t = (x - on.from[0]) / (on.to[0] - on.from[0]);
    return on.from[1] + t * (on.to[1] - on.from[1]);
  };
  const breaks = levels.flatMap((s) => [s.from[0], s.to[0]]).filter((x) => x > fromM && x < toM);
  const line: WorldPoint[] = [[fromM, levelAt(fromM, 1e-6)]];
  for (const x of [...new Set(breaks)].sort((a, b) => a - b)) {
    line.push([x, levelAt(x, -1e-6)], [x, levelAt(x, 1e-6)]);
  }
  line.push([toM, levelAt(toM, -1e-6)]);
  return { line, stretches: [...parking, ...areas] };
}
