import type { AerialDevice, RiggingPoint } from "../aerial/device.ts";
import type { Triple } from "../base/vector.ts";
import type { GroundPlane } from "../scene/ground-plane.ts";
import type { Outline, PlanPoint } from "../scene/outline.ts";

/**
 * Where could the vehicle stand, and how would its ladder be posed, so that a point comes to hang over a place?
 *
 * Plain data, so that it can be handed to a worker. Site frame, SI. A limit that is `null` is not known: what rests on it
 * is `unknown`, kept apart from feasible and from rejected.
 */
export interface StandQuestion {
  /** Which vehicle this is about; only handed through. */
  readonly vehicleKey: string;
  readonly device: AerialDevice;
  /** How far each jack is out, 0 to 1, by its id; left out: 1. */
  readonly jackReach: Readonly<Record<string, number>>;
  /** Side of each jack's pad, a square in line with the vehicle, by its id, m > 0; `null`: not known, its middle is looked at; left out: only middles are asked for. */
  readonly jackPadSideM?: Readonly<Record<string, number | null>>;
  /** What is to come over the target: a point of the ladder or platform; `null` is the tip itself. */
  readonly hungFrom: HungFrom | null;
  readonly target: StandTarget;
  /** Ground a vehicle may stand on; vehicle and jacks must lie within one of them. */
  readonly parking: readonly StandParking[];
  /** Steepest slope along and across the vehicle, rad ≥ 0. */
  readonly slopeLimitRad: number | null;
  /** Steepest fall of the ground itself, whichever way the vehicle faces, rad ≥ 0; left out or `null`: none is set. */
  readonly groundSlopeLimitRad?: number | null;
  /** Neither vehicle nor jack may stand here. */
  readonly keepOuts: readonly StandArea[];
  /** What vehicle and jacks must keep `bodyClearanceM` from. */
  readonly bodyObstacles: readonly StandObstacle[];
  /** m ≥ 0. */
  readonly bodyClearanceM: number | null;
  /** What ladder and platform must keep `ladderClearanceM` from. */
  readonly obstacles: readonly StandObstacle[];
  /** m ≥ 0. */
  readonly ladderClearanceM: number | null;
  /** Power lines, which ladder, platform and vehicle must keep their distance from. */
  readonly wires: readonly StandWire[];
  /** `null`: not known. */
  readonly tipDemand: TipDemand | null;
  /** What the tip carries is not known only because it has not been worked out yet; left out: false. */
  readonly ratingLater?: boolean;
  /** What share of the rated tip load may be used, > 0. */
  readonly ratedFactor: number;
  /** Clearance beyond what is asked for counts up to here when poses are compared, m > 0. */
  readonly clearanceCountedM: number;
  readonly steps: StandSteps;
}

export type HungFrom = Pick<RiggingPoint, "on" | "alongM" | "lateralM" | "dropM">;

/** Where the point is to hang: within `toleranceM` of a place in plan, between two heights. */
export interface StandTarget {
  readonly xM: number;
  readonly yM: number;
  /** m ≥ 0. */
  readonly toleranceM: number;
  readonly minZM: number;
  readonly maxZM: number;
}

export interface StandParking {
  readonly id: string;
  readonly name: string;
  readonly outline: Outline;
  readonly plane: GroundPlane;
}

export interface StandArea {
  readonly id: string;
  readonly name: string;
  readonly outline: Outline;
}

/** Something that stands over an outline between two heights: a building, a parapet, a tree, a canopy. */
export interface StandObstacle extends StandArea {
  readonly bottomZM: number;
  readonly topZM: number;
}

export interface StandWire {
  readonly id: string;
  readonly name: string;
  /** Two points or more, m. */
  readonly points: readonly Triple[];
  /** m ≥ 0. */
  readonly requiredM: number | null;
}

/**
 * Resultant force on the tip, by where the ladder points and how high the point hangs: straight between entries, the end
 * values beyond. What hangs off plumb puts the more on the tip the lower it is, and where it is too low nothing holds the load.
 */
export interface TipDemand {
  /** Rising, within one turn of the first; one alone holds all round. */
  readonly bearingsRad: readonly number[];
  /** Rising. */
  readonly elevationsRad: readonly number[];
  /** Site heights of the point, rising, m. */
  readonly heightsM: readonly number[];
  /** N ≥ 0, heights within elevations within bearings; `null`: nothing holds the load there, nor between there and the next entry. */
  readonly demandN: readonly (number | null)[];
  /**
   * How steep the ladder may stand for the load to be held on its way and to keep off it, heights within bearings, rad;
   * straight between entries, the end values beyond. `null`: at no elevation, nor between there and the next entry. Left
   * out: the table above is all that is known of it.
   */
  readonly steepestRad?: readonly (number | null)[];
}

/** How finely is looked? Whole numbers of 1 or more, but for the cell's size. */
export interface StandSteps {
  /** Between neighbouring turntable places, m > 0. */
  readonly cellM: number;
  /** Headings, evenly spread from north. */
  readonly headings: number;
  /** Places within the target's tolerance: the middle, the nearest to the turntable, the farthest, others spread evenly. */
  readonly tipPlaces: number;
  /** Heights, evenly spread from the highest down to the lowest; one alone is the highest. Between two that fail in other ways more are tried. */
  readonly tipHeights: number;
}

/** One whole answer to try: where the vehicle stands, which way it faces, and where the point hangs. */
export interface StandCandidate {
  readonly turntable: PlanPoint;
  readonly headingRad: number;
  readonly point: Triple;
}
