import type { CompiledQuestion } from "./compile-question.ts";
import type { UprightFrame } from "./flat-outlines.ts";

/** The poses that hang one point at several heights over one place, from one place to stand. Changes in place. */
export interface PoseFamily {
  /** The ladder's upright plane: u from the pivot outward. Its `x` and `y` are the pivot's. */
  readonly frame: UprightFrame;
  /** Where the vehicle stands. */
  readonly turntable: { x: number; y: number };
  pivotZM: number;
  /** From the turntable's axis to the place, and the least at which the point can hang there, m. */
  radiusM: number;
  leastRadiusM: number;
  count: number;
  readonly elevationRad: Float64Array;
  readonly lengthM: Float64Array;
  readonly sin: Float64Array;
  readonly cos: Float64Array;
  standAt(x: number, y: number, groundZM: number): void;
  /** False if the point cannot be hung at one of the heights by any bearing, elevation and length. */
  aim(pointX: number, pointY: number, heights: Float64Array): boolean;
}

/** The axis itself leaves the bearing open, m. */
const ON_AXIS_M = 1e-6;

/** How must the ladder be posed for each height? The closed form of `poseForRiggingPoint`. */
export function poseFamily({ question, heights: usual }: CompiledQuestion): PoseFamily {
  const { device, hungFrom } = question;
  const onLadder = hungFrom?.on !== "platform";
  const back = onLadder ? (hungFrom?.alongM ?? 0) : 0;
  const drop = onLadder ? (hungFrom?.dropM ?? 0) : 0;
  const ahead = onLadder ? 0 : (hungFrom?.alongM ?? 0);
  const plumb = onLadder ? 0 : (hungFrom?.dropM ?? 0);
  const right = hungFrom?.lateralM ?? 0;

  const family: PoseFamily = {
    frame: { x: 0, y: 0, sin: 0, cos: 1 },
    turntable: { x: 0, y: 0 },
    pivotZM: 0,
    radiusM: 0,
    leastRadiusM: Math.max(Math.abs(right), ON_AXIS_M),
    count: 0,
    elevationRad: new Float64Array(usual.length),
    lengthM: new Float64Array(usual.length),
    sin: new Float64Array(usual.length),
    cos: new Float64Array(usual.length),
    standAt(x, y, groundZM) {
      family.turntable.x = x;
      family.turntable.y = y;
      family.pivotZM = groundZM + device.pivotHeightM;
    },
    aim(pointX, pointY, heights) {
      const { frame, turntable, leastRadiusM } = family;
      const east = pointX - turntable.x;
      const north = pointY - turntable.y;
      const radius = Math.sqrt(east * east + north * north);
      family.radiusM = radius;
      family.count = 0;
      if (radius <= leastRadiusM) return false;
      const reach = Math.sqrt(radius * radius - right * right);
      const squared = radius * radius;
      frame.sin = (east * reach - north * right) / squared;
      frame.cos = (north * reach + east * right) / squared;
      frame.x = turntable.x - device.pivotSetbackM * frame.sin;
      frame.y = turntable.y - device.pivotSetbackM * frame.cos;
      const level = reach + device.pivotSetbackM - ahead;
      for (let i = 0; i < heights.length; i++) {
        const height = (heights[i] as number) - family.pivotZM + plumb;
        const away = level * level + height * height;
        const along = Math.sqrt(Math.max(0, away - drop * drop));
        const elevation = Math.atan2(height, level) + (drop === 0 ? 0 : Math.atan2(drop, along));
        family.elevationRad[i] = elevation > Math.PI ? elevation - 2 * Math.PI : elevation;
        family.lengthM[i] = along + back;
        family.sin[i] = drop === 0 && along > 0 ? height / along : Math.sin(elevation);
        family.cos[i] = drop === 0 && along > 0 ? level / along : Math.cos(elevation);
        if (away < drop * drop) return false;
      }
      family.count = heights.length;
      return true;
    },
  };
  return family;
}
