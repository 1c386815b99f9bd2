import type {
  AerialPose,
  InputProblem,
  PlanPoint,
  StandBand,
  StandQuestion,
  StandReason,
  StandSteps,
} from "@gantline/engine";
import type { Status } from "../check.ts";
import type { TimedCheck } from "../evolve/evolution-types.ts";
import type { Device } from "../schema/aerial.ts";
import type { Plan } from "../schema/plan.ts";
import type { Phrase, Quantity } from "../units/quantity.ts";

/** A place the load is to hang over. */
export interface StandAim {
  readonly id: string;
  readonly name: string;
  readonly xM: number;
  readonly yM: number;
  /** What load, bridle and margin must find room above, site height, m; `null`: nothing is to be landed there. */
  readonly landingZM: number | null;
}

/** What to look for. What is left out is as the plan has it. */
export interface StandAsk {
  readonly device?: Device;
  readonly aim?: StandAim;
  /** How far from plumb over the aim the rigging points may come to lie, m. */
  readonly toleranceM?: number;
  /** What vehicle and jacks keep from structures, m. */
  readonly bodyClearanceM?: number;
  /** What the tip carries is not worked out yet: no place can then be told to fit, only why not. */
  readonly ratingLater?: boolean;
  readonly steps?: Partial<StandSteps>;
}

/** What the search is asked of one vehicle and one aim. */
export interface AskedStand {
  readonly ok: true;
  readonly question: StandQuestion;
  readonly device: Device;
  readonly aim: StandAim;
  /** What the question leaves unknown, as sentences. */
  readonly unknown: readonly Phrase[];
}

/** What the search is asked, or why it cannot be asked. */
export type StandAsked = AskedStand | { readonly ok: false; readonly problems: readonly InputProblem[] };

/** A question and what the search found for it, in one band or several. */
export interface FoundStands {
  readonly asked: AskedStand;
  readonly bands: readonly StandBand[];
}

/** Where a vehicle stands and how its ladder is posed: what `withStand` takes into a plan. */
export interface StandChoice {
  readonly device: Device;
  readonly turntable: PlanPoint;
  readonly headingRad: number;
  readonly pose: AerialPose;
}

/** By what stands are compared: those of the search, the largest force on the tip, and the rope that must be brought. */
export const STAND_ASPECTS = ["steepest", "shortest", "leastUsed", "lowestTip", "clearest", "leastRope"] as const;
export type StandAspect = (typeof STAND_ASPECTS)[number];

/** By what a stand can be the best of a list: those, and the room it leaves to be parked off. */
export type StandPick = StandAspect | "roomiest";

/** The figures of a stand once its whole evolution has been swept; `null`: not known. */
export interface StandFigures {
  readonly elevationRad: number;
  readonly lengthM: number;
  /** Highest ratio of the tip rating's checks that count. */
  readonly utilisation: number | null;
  /** Largest resultant at the tip, N. */
  readonly tipForceN: number | null;
  /** Least of: ladder to structures, ladder and vehicle to power lines, each less what is asked, m. */
  readonly clearanceM: number | null;
  /** All ropes together, each at its longest, m. */
  readonly ropeM: number | null;
}

/** What the sweep of a stand came to: nothing over and all known, nothing over, or something over. Example data is not counted. */
export type StandFit = "fits" | "unknown" | "fails";

/** One stand of the short list, swept through the whole evolution. */
export interface StandEntry {
  readonly choice: StandChoice;
  readonly aim: StandAim;
  /** By what it is the best of its vehicle on the list; of stands that fail none is. */
  readonly bestBy: readonly StandPick[];
  /** Poses from the same place and heading over the other aims that were asked for. */
  readonly alsoServes: readonly { readonly aim: StandAim; readonly pose: AerialPose }[];
  readonly fit: StandFit;
  readonly figures: StandFigures;
  /** So far off in any direction it may be parked and all still holds, as `standPlacement` has it, m, at most 1; `null`: not worked out, or it fails. */
  readonly roomM: number | null;
  /** Checks that count, by status; example data left out. */
  readonly counts: Readonly<Record<Status, number>>;
  /** The check that governs, at its worst moment; `null` where there is none. */
  readonly worst: TimedCheck | null;
  /** No other stand of the list that fits at least as well is as good by every figure and better by one. */
  readonly inFront: boolean;
}

/**
 * Single changes that could make a stand possible where there is none.
 *
 * - `closer`: ground beside the parking ground made fit to stand on, out to `amount` m from it.
 * - `otherSide`: ground made fit across the aim from the parking ground; the nearest such stand.
 * - `otherVehicle`: another vehicle of the list.
 * - `lighterLoad`: `amount` kg off the heaviest the load gets.
 * - `lowerBridle`: the bridle lower by `amount` m, the load where it was.
 * - `longerRope`: every rope of the gear longer by `amount` m.
 * - `largerPads`: the pad under every jack larger by `amount` m a side.
 * - `widerTarget`: the tip up to `amount` m further off plumb.
 * - `lessClearance`: the ladder nearer to structures by `amount` m than the policy asks.
 */
export const STAND_CHANGES = [
  "closer",
  "otherSide",
  "otherVehicle",
  "lighterLoad",
  "lowerBridle",
  "longerRope",
  "largerPads",
  "widerTarget",
  "lessClearance",
] as const;
export type StandChangeKind = (typeof STAND_CHANGES)[number];

/** One change after which the search finds a stand, and the stand it finds. */
export interface StandAdvice {
  readonly kind: StandChangeKind;
  /** The least that does it, to within `withinAmount`; `null` where it is not a matter of degree. */
  readonly amount: number | null;
  readonly withinAmount: number | null;
  readonly quantity: Quantity | null;
  /** How great a change it is, as a share of what there is: by this advice is put in order, smallest first. */
  readonly size: number;
  readonly says: Phrase;
  readonly choice: StandChoice;
  /** The plan with the change made and the stand taken. */
  readonly plan: Plan;
  /** How the whole evolution does then. */
  readonly fit: StandFit;
}

/** A place that can be found again on the ground and taped from. */
export interface TapePoint {
  readonly id: string;
  readonly name: string;
  readonly at: PlanPoint;
}

/** A point to paint on the ground: where two tapes meet. */
export interface PaintMark {
  /** `turntable`, or `jack/` and the jack's id. */
  readonly id: string;
  readonly name: string;
  readonly at: PlanPoint;
  /** Two if there are two to be had, left or right of the line from the first to the second. */
  readonly tapes: readonly { readonly from: TapePoint; readonly distanceM: number }[];
  /** On which side of the line from the first tape point to the second it lies, looking along it; `null` with fewer than two. */
  readonly side: "left" | "right" | null;
  /** Angle at which the tapes cross, rad in [0, π/2]; `null` with fewer than two. */
  readonly crossingRad: number | null;
}

/** How far the turntable may be parked off in one direction, the ladder posed anew over the same place. */
export interface ParkedOff {
  readonly bearingRad: number;
  /** m; at most `PARKED_OFF_MOST_M`. */
  readonly distanceM: number;
  /** What would no longer hold beyond; `null` where it holds as far as was looked, or where ropes and load end it. */
  readonly governs: StandReason | null;
  /** Beyond, something of ropes, load or tether no longer holds at one of the moments that matter. */
  readonly loadGoverns: boolean;
  /** What is read at the ladder that far off. */
  readonly reading: LadderReading;
}

/** The ladder posed anew over the same place. */
export interface LadderReading {
  readonly bearingRad: number;
  /** Clockwise from the vehicle's front. */
  readonly turnRad: number;
  readonly elevationRad: number;
  readonly lengthM: number;
  /** Of the rated load, as the search has it; `null`: not known. */
  readonly used: number | null;
}

/** Where the turntable's middle may come to stand, east and north of where it is planned, m. */
export interface ParkArea {
  readonly squareM: number;
  /** So far off any way it still holds. */
  readonly freeM: number;
  /** The area, cut into strips from west to east. */
  readonly strips: readonly {
    readonly westM: number;
    readonly eastM: number;
    readonly southM: number;
    readonly northM: number;
  }[];
}

/** What a person paints on the ground, and what the operator reads at the ladder. */
export interface StandPlacement {
  readonly marks: readonly PaintMark[];
  /** Of the vehicle's front. */
  readonly headingRad: number;
  /** Of the ladder on the site, and clockwise from the vehicle's front. */
  readonly bearingRad: number;
  readonly turnRad: number;
  /** Inclinometer on the ladder. */
  readonly elevationRad: number;
  /** Pivot to tip, and run out beyond its shortest, m. */
  readonly lengthM: number;
  readonly extensionM: number;
  /** In 16 directions from north, clockwise; empty where the stand itself does not hold. */
  readonly parkedOff: readonly ParkedOff[];
  /** `null` where the stand itself does not hold. */
  readonly area: ParkArea | null;
  /** Are `parkedOff` and `area` held to ropes, load and tether as well? Not where these fail at the stand itself. */
  readonly heldToLoad: boolean;
  /** So much the heading may be off either way at the planned place, of what was looked at, rad; `null` where the stand itself does not hold. */
  readonly turnFreeRad: number | null;
  /** What governs the stand itself where it does not hold. */
  readonly governs: StandReason | null;
}
