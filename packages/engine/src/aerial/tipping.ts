import { addScaled, bearingOf, bearingVector, type SiteVector, site, subtract, unit } from "../base/vector.ts";
import type { AerialDevice, AerialPlace, AerialPose } from "./device.ts";
import type { JackLine } from "./jack-lines.ts";
import { poseAerial } from "./pose-aerial.ts";
import { wrapBearing } from "./pose-limits.ts";
import { ratedLoadAheadM } from "./rated-load-ahead.ts";

/** A force from outside on the vehicle or its ladder. */
export interface AppliedForce {
  readonly at: SiteVector;
  /** N, site frame. */
  readonly forceN: SiteVector;
}

export interface TippingMoment {
  readonly line: JackLine;
  /** Moment of the applied forces about the line, N·m; positive tips the vehicle out over it. */
  readonly momentNm: number;
  /** The rated vertical tip load's moment about the line at this pose, N·m; `null` without a rating. */
  readonly ratedHereNm: number | null;
  /** The same with the ladder swung, at this elevation and length, to where it bears hardest on the line. */
  readonly ratedWorstNm: number | null;
  readonly ratedWorstBearingRad: number;
  /** momentNm / ratedWorstNm, 0 if nothing tips outward; `null` where the rated load itself never tips outward. */
  readonly ratio: number | null;
  /** What the vehicle's own weight holds against it, N·m; `null` where mass or centre is not known. */
  readonly holdingNm: number | null;
}

/** What the maker's rated load does over one jack line: the same for every rigging at a pose. */
export type RatedTipping = Pick<TippingMoment, "line" | "ratedHereNm" | "ratedWorstNm" | "ratedWorstBearingRad">;

/**
 * How hard does the maker's rated load bear on each jack line at a pose?
 *
 * The rated vertical load at the tip (on a platform, where the maker puts it), here and swung, at this elevation and
 * length, to its worst bearing. `null` moments without a rating.
 */
export function ratedTipping(
  device: AerialDevice,
  place: AerialPlace,
  pose: AerialPose,
  lines: readonly JackLine[],
  ratedTipLoadN: number | null,
): readonly RatedTipping[] {
  const loadAt = (bearingRad: number): AppliedForce | null =>
    ratedTipLoadN === null ? null : ratedForce(device, place, { ...pose, bearingRad }, ratedTipLoadN);
  const here = loadAt(pose.bearingRad);
  return lines.map((line) => {
    const ratedWorstBearingRad = worstBearing(device, pose, line);
    const worst = loadAt(ratedWorstBearingRad);
    return {
      line,
      ratedHereNm: here === null ? null : momentAboutLine(line, [here]),
      ratedWorstNm: worst === null ? null : momentAboutLine(line, [worst]),
      ratedWorstBearingRad,
    };
  });
}

/**
 * How hard does the rigging try to tip the vehicle over each line of its jacks, beside what the maker's table allows?
 *
 * Statics about each side of the jack polygon, from forces outside the vehicle alone; a rope made fast on the vehicle
 * at both ends counts only through its parts that leave the vehicle. It is measured against `ratedTipping` at the worst
 * bearing: a table that holds only over some bearings, or only with jacks fully out, must be judged with that in mind.
 * `vehicleWeight` is the whole machine's weight at its centre of mass in this pose.
 */
export function tippingMoments(
  rated: readonly RatedTipping[],
  forces: readonly AppliedForce[],
  vehicleWeight: AppliedForce | null = null,
): readonly TippingMoment[] {
  return rated.map((over) => {
    const { line, ratedWorstNm } = over;
    const momentNm = momentAboutLine(line, forces);
    return {
      ...over,
      momentNm,
      ratio: ratedWorstNm !== null && ratedWorstNm > 0 ? Math.max(0, momentNm) / ratedWorstNm : null,
      holdingNm: vehicleWeight === null ? null : 0 - momentAboutLine(line, [vehicleWeight]),
    };
  });
}

/** Moment of forces about a jack line, N·m; positive tips outward over it. */
export function momentAboutLine({ from, to }: JackLine, forces: readonly AppliedForce[]): number {
  const [u, o] = [unit(subtract(to.position, from.position)), from.position];
  let sum = 0;
  for (const { at, forceN: f } of forces) {
    const x = at[0] - o[0];
    const y = at[1] - o[1];
    const z = at[2] - o[2];
    sum += u[0] * (y * f[2] - z * f[1]) + u[1] * (z * f[0] - x * f[2]) + u[2] * (x * f[1] - y * f[0]);
  }
  return sum;
}

/** Where the maker's rated load acts at a pose, with its force. */
function ratedForce(device: AerialDevice, place: AerialPlace, pose: AerialPose, ratedTipLoadN: number): AppliedForce {
  const posed = poseAerial(device, place, pose);
  return {
    at: addScaled(posed.tip, bearingVector(pose.bearingRad), ratedLoadAheadM(device)),
    forceN: site(0, 0, -ratedTipLoadN),
  };
}

/**
 * The bearing at which a vertical load at the tip bears hardest on a line: square out over it, as the load's circle is
 * centred on the turntable's axis; square back if setback leaves the tip behind the axis.
 */
function worstBearing(device: AerialDevice, pose: AerialPose, line: JackLine): number {
  const along = subtract(line.to.position, line.from.position);
  const outward = bearingOf(site(along[1], -along[0], 0));
  const radius = pose.lengthM * Math.cos(pose.elevationRad) - device.pivotSetbackM + ratedLoadAheadM(device);
  return wrapBearing(radius >= 0 ? outward : outward + Math.PI);
}
