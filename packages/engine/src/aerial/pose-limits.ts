import type { AerialDevice, AerialPose } from "./device.ts";

/** One way in which a pose lies outside what the device can do. */
export type PoseBreach =
  | { readonly code: "tooLow" | "tooSteep"; readonly elevationRad: number; readonly limitRad: number }
  | { readonly code: "tooShort" | "tooLong"; readonly lengthM: number; readonly limitM: number };

/** A pose this near a limit counts as on it, rad or m: far above rounding, far below what an operator can set. */
export const POSE_TOLERANCE = 1e-6;

/** Which of the device's limits does a pose break? Empty when it breaks none. The bearing is free all round. */
export function poseBreaches(device: AerialDevice, pose: AerialPose): readonly PoseBreach[] {
  const { elevationRad, lengthM } = pose;
  const breaches: PoseBreach[] = [];
  if (elevationRad < device.elevationMinRad - POSE_TOLERANCE) {
    breaches.push({ code: "tooLow", elevationRad, limitRad: device.elevationMinRad });
  }
  if (elevationRad > device.elevationMaxRad + POSE_TOLERANCE) {
    breaches.push({ code: "tooSteep", elevationRad, limitRad: device.elevationMaxRad });
  }
  if (lengthM < device.lengthMinM - POSE_TOLERANCE) {
    breaches.push({ code: "tooShort", lengthM, limitM: device.lengthMinM });
  }
  if (lengthM > device.lengthMaxM + POSE_TOLERANCE) {
    breaches.push({ code: "tooLong", lengthM, limitM: device.lengthMaxM });
  }
  return breaches;
}

/** The pose with elevation and length brought to the nearest the device can do; the bearing in [0, 2π). */
export function clampPose(device: AerialDevice, pose: AerialPose): AerialPose {
  return {
    bearingRad: wrapBearing(pose.bearingRad),
    elevationRad: clamp(pose.elevationRad, device.elevationMinRad, device.elevationMaxRad),
    lengthM: clamp(pose.lengthM, device.lengthMinM, device.lengthMaxM),
  };
}

/** The same bearing in [0, 2π), rad. */
export function wrapBearing(angleRad: number): number {
  const whole = 2 * Math.PI;
  const a = angleRad % whole;
  const positive = a < 0 ? a + whole : a;
  return positive >= whole ? 0 : positive;
}

const clamp = (x: number, lo: number, hi: number): number => Math.min(Math.max(x, lo), hi);
