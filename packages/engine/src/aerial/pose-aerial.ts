import { addScaled, type BeamVector, bearingVector, dot, type SiteVector, site } from "../base/vector.ts";
import type { AerialDevice, AerialPlace, AerialPose } from "./device.ts";
import { turntableAt } from "./vehicle-point.ts";

/** Unit vectors of the beam frame, in the site frame. `axial × normal = lateral`. */
export interface BeamAxes {
  /** From pivot to tip. */
  readonly axial: SiteVector;
  /** Square to the ladder in its vertical plane; up when the ladder is level. */
  readonly normal: SiteVector;
  /** Level, to the right when looking out along the ladder. */
  readonly lateral: SiteVector;
}

/** A device placed and posed: where its beam is on the site. The beam is straight. */
export interface PosedAerial extends AerialPose {
  readonly pivot: SiteVector;
  readonly tip: SiteVector;
  readonly axes: BeamAxes;
}

/**
 * Where are the pivot and the tip, and which way do the beam's axes point?
 *
 * A straight, rigid beam. The pivot sits `pivotHeightM` above the ground at the turntable and
 * `pivotSetbackM` behind the turntable's centre, opposite the ladder's bearing, so it moves as the ladder swings.
 * The pose is not held against the device's limits here: see `poseBreaches`.
 */
export function poseAerial(device: AerialDevice, place: AerialPlace, pose: AerialPose): PosedAerial {
  const axes = beamAxes(pose.bearingRad, pose.elevationRad);
  const centre = addScaled(turntableAt(place), bearingVector(pose.bearingRad), -device.pivotSetbackM);
  const pivot = site(centre[0], centre[1], centre[2] + device.pivotHeightM);
  return { ...pose, pivot, tip: addScaled(pivot, axes.axial, pose.lengthM), axes };
}

/** Beam axes for a bearing and an elevation, rad. */
export function beamAxes(bearingRad: number, elevationRad: number): BeamAxes {
  const sinB = Math.sin(bearingRad);
  const cosB = Math.cos(bearingRad);
  const sinE = Math.sin(elevationRad);
  const cosE = Math.cos(elevationRad);
  return {
    axial: site(cosE * sinB, cosE * cosB, sinE),
    normal: site(-sinE * sinB, -sinE * cosB, cosE),
    lateral: site(cosB, -sinB, 0),
  };
}

/** Components of a site vector (a force or a difference of positions) along the beam's axes. */
export function toBeam(axes: BeamAxes, v: SiteVector): BeamVector {
  return { axial: dot(axes.axial, v), normal: dot(axes.normal, v), lateral: dot(axes.lateral, v) };
}

/** The site vector with the given components along the beam's axes. */
export function fromBeam(axes: BeamAxes, v: BeamVector): SiteVector {
  const { axial, normal, lateral } = axes;
  return site(
    v.axial * axial[0] + v.normal * normal[0] + v.lateral * lateral[0],
    v.axial * axial[1] + v.normal * normal[1] + v.lateral * lateral[1],
    v.axial * axial[2] + v.normal * normal[2] + v.lateral * lateral[2],
  );
}
