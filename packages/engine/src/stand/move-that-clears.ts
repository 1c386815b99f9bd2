import { ladderSolid, platformSolid, vehicleSolid } from "../aerial/aerial-solids.ts";
import type { AerialPlace, AerialPose } from "../aerial/device.ts";
import { jackFeet } from "../aerial/jack-lines.ts";
import { poseAerial } from "../aerial/pose-aerial.ts";
import { addScaled, asSite, type SiteVector, site, UP } from "../base/vector.ts";
import { clearance, TOUCH_M } from "../scene/clearance.ts";
import { extrudedOutline, polyline, type Shape } from "../scene/solids.ts";
import type { StandQuestion } from "./stand-question.ts";
import type { MoveThatClears, StandCheck } from "./stand-reason.ts";

/** No farther is looked, m. */
const FARTHEST_M = 100;
const WITHIN_M = 1e-3;
const ASIDE = 16;

/**
 * How far would a ladder, a platform, a vehicle or a jack that comes too near one thing have to move to keep what is asked
 * from it? Ladder and platform straight up, or straight down where that is less; vehicle and jacks level, the least of sixteen
 * bearings. Tells how deep it goes in, where the distance found is 0; it is no way to park: nothing else is looked at. To 1 mm,
 * `null` beyond 100 m or where it is no such check.
 */
export function moveThatClears(
  question: StandQuestion,
  { place, pose }: { readonly place: AerialPlace; readonly pose: AerialPose },
  { check, thing, askedM }: { readonly check: StandCheck; readonly thing: number; readonly askedM: number },
): MoveThatClears | null {
  const other = thingOf(question, check, thing);
  const moving = movingPart(question, check, place, pose);
  if (other === null || moving.length === 0) return null;
  const wanted = Math.max(askedM, TOUCH_M);
  const clears = (by: SiteVector): boolean =>
    moving.every((part) => clearance(movedShape(other, by), part).distanceM >= wanted);
  const least = (toward: (m: number) => SiteVector): number => {
    let [near, far] = [0, 0.25];
    while (!clears(toward(far))) {
      near = far;
      far *= 2;
      if (far > FARTHEST_M) return Number.POSITIVE_INFINITY;
    }
    while (far - near > WITHIN_M) {
      const middle = (near + far) / 2;
      if (clears(toward(middle))) far = middle;
      else near = middle;
    }
    return far;
  };
  // The thing is moved the other way instead: it is one and simple.
  const found: readonly MoveThatClears[] = OF_THE_BODY.has(check)
    ? [
        {
          byM: Math.min(
            ...Array.from({ length: ASIDE }, (_, i) => {
              const bearing = (2 * Math.PI * i) / ASIDE;
              return least((m) => site(m * Math.sin(bearing), m * Math.cos(bearing), 0));
            }),
          ),
          way: "aside",
        },
      ]
    : [
        { byM: least((m) => site(0, 0, -m)), way: "higher" },
        { byM: least((m) => site(0, 0, m)), way: "lower" },
      ];
  const best = found.reduce((a, b) => (b.byM < a.byM ? b : a));
  return Number.isFinite(best.byM) ? best : null;
}

const OF_THE_BODY: ReadonlySet<StandCheck> = new Set(["vehicleClearance", "jackClearance", "vehicleToWire"]);

type Thing =
  | { readonly kind: "prism"; readonly of: StandQuestion["obstacles"][number] }
  | { readonly kind: "wire"; readonly points: readonly SiteVector[] };

function thingOf(question: StandQuestion, check: StandCheck, thing: number): Thing | null {
  const list = check === "vehicleClearance" || check === "jackClearance" ? question.bodyObstacles : question.obstacles;
  if (check.endsWith("Clearance")) {
    const of = list[thing];
    return of ? { kind: "prism", of } : null;
  }
  const wire = check.endsWith("ToWire") ? question.wires[thing] : undefined;
  return wire ? { kind: "wire", points: wire.points.map(asSite) } : null;
}

function movedShape(thing: Thing, by: SiteVector): Shape {
  if (thing.kind === "wire") return polyline(thing.points.map((p) => addScaled(p, by, 1)));
  const { outline, bottomZM, topZM } = thing.of;
  const moved = outline.map(([x, y]) => [x + by[0], y + by[1]] as const);
  return extrudedOutline(moved, bottomZM + by[2], topZM + by[2]);
}

function movingPart(
  { device, jackReach }: StandQuestion,
  check: StandCheck,
  place: AerialPlace,
  pose: AerialPose,
): readonly Shape[] {
  switch (check) {
    case "ladderClearance":
    case "ladderToWire":
      return [ladderSolid(device, poseAerial(device, place, pose))];
    case "platformClearance":
    case "platformToWire": {
      const platform = platformSolid(device, poseAerial(device, place, pose));
      return platform === null ? [] : [platform];
    }
    case "vehicleClearance":
    case "vehicleToWire":
      return [vehicleSolid(device, place)];
    case "jackClearance":
      return jackFeet(device, place, jackReach).map(({ position }) =>
        polyline([position, addScaled(position, UP, device.outline.heightM)]),
      );
    default:
      return [];
  }
}
