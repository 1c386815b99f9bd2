import type { AerialPose } from "../aerial/device.ts";

/** By how much what meets a thing would have to move to keep what is asked from it, m. */
export interface MoveThatClears {
  readonly byM: number;
  readonly way: "higher" | "lower" | "aside";
}

/** Everything a stand is held against. The order is that of the codes in a `StandBand`; 0 is none. */
export const STAND_CHECKS = [
  "none",
  "offParking",
  "vehicleOffParking",
  "jackOffParking",
  "vehicleOnKeepOut",
  "jackOnKeepOut",
  "vehicleClearance",
  "jackClearance",
  "vehicleToWire",
  "slopeAlong",
  "slopeAcross",
  "tooNear",
  "tooLow",
  "tooSteep",
  "tooShort",
  "tooLong",
  "rating",
  "nothingHolds",
  "ladderClearance",
  "ladderToWire",
  "platformClearance",
  "platformToWire",
  "loadWay",
  "groundSlope",
] as const;

export type StandCheck = Exclude<(typeof STAND_CHECKS)[number], "none">;

/**
 * What keeps a stand from being feasible, and by how much.
 *
 * - `offParking`: the turntable from the nearest parking ground; limit 0, m.
 * - `vehicleOffParking`, `jackOffParking`: how far out the worst corner or jack is; limit 0, m.
 * - `vehicleOnKeepOut`, `jackOnKeepOut`: how far it would have to shift to be off; limit 0, m.
 * - `…Clearance`, `…ToWire`: the distance found against the distance asked for, m; nothing is found where they meet.
 * - `slopeAlong`, `slopeAcross`: the slope against the limit, rad, both positive.
 * - `groundSlope`: the fall of the ground itself against the limit, rad.
 * - `tooNear`: the target from the turntable's axis against the point's sideways offset, m.
 * - `tooLow`, `tooSteep` (rad), `tooShort`, `tooLong` (m): the pose against the device's limit.
 * - `rating`: resultant at the tip against what may be used of the rated load, N.
 * - `nothingHolds`: height of the point against the next higher one at which the load is held, m, site heights, for about
 *   this pose; no limit where there is none.
 * - `loadWay`: elevation of the ladder against the steepest at which the load is held on its way and keeps off it, rad.
 *
 * In a stand that is unknown, what is not known is `null`.
 */
export interface StandReason {
  readonly check: StandCheck;
  readonly value: number | null;
  readonly limit: number | null;
  readonly unit: "m" | "rad" | "N";
  /** How far from passing, in `unit`, ≥ 0; `null` when unknown. */
  readonly shortfall: number | null;
  /** Of the obstacle, wire, keep-out or parking ground; `null` where there is none. */
  readonly thingId: string | null;
  /** Of a cell's candidate nearest to passing, where it is about the ladder: how the ladder is posed in it. */
  readonly pose: AerialPose | null;
  /** Of a cell where two things meet: how far one would have to move to keep what is asked. */
  readonly clears: MoveThatClears | null;
}
