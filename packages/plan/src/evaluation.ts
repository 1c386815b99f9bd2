import type {
  AppliedForce,
  BeamForce,
  BeamSection,
  InputProblem,
  PosedAerial,
  SiteVector,
  Solid,
  TippingMoment,
  Utilisations,
} from "@gantline/engine";
import type { Check, Status } from "./check.ts";
import type { Phrase } from "./units/quantity.ts";

/** At rest, sheave friction can act either way: both ends of the band are solved. */
export type TravelCase = "raise" | "lower";

/** Of what the rope that must be brought is made up, m. */
export interface RopeNeed {
  readonly pathM: number;
  /** As much again as the load can still go down to the ground below it. */
  readonly toGroundM: number;
  readonly knotTailM: number;
  readonly brakeM: number;
  readonly reserveM: number;
}

/** One rope as it runs, in order from the load. */
export interface RunningLine {
  readonly id: string;
  readonly name: string;
  readonly role: "main" | "tagline" | "tether";
  readonly nodes: readonly { readonly id: string; readonly name: string; readonly at: SiteVector }[];
  /** Tension of each segment, N, in each travel case. */
  readonly tensionsN: Readonly<Record<TravelCase, readonly number[]>>;
  readonly slack: boolean;
  /** Along the path from load to brake or hands, m. */
  readonly pathM: number;
  /** How far a tagline hangs below the straight line, for the rope's own weight, m; null: no tagline, weight not known, or pulled too little to hang free. */
  readonly sagM: number | null;
  /** Places along a tagline that hangs so, from the load to the hands, in straight pieces within some 5 mm of it; null as `sagM`. */
  readonly hangs: readonly SiteVector[] | null;
  /** Why it is not known how a tagline hangs; null: it is known, or no tagline. */
  readonly hangUnknown: string | null;
  /** The same rope with no tension in it, m; null where its stiffness is not known. */
  readonly unstretchedM: number | null;
  /** What must be brought: the sum of the parts below, m. */
  readonly neededM: number;
  readonly need: RopeNeed;
}

/** What one rigging point feels in one travel case. */
export interface PointForce extends BeamForce {
  readonly pointId: string;
  readonly name: string;
  readonly at: SiteVector;
  /** On the ladder, N. */
  readonly forceN: SiteVector;
}

/** What the rules judge of the ladder and the vehicle in one travel case. */
export interface FeltForces {
  readonly points: readonly PointForce[];
  /** Sum over the rigging points, N. */
  readonly resultantN: SiteVector;
  readonly inBeam: BeamForce;
  readonly utilisations: Utilisations;
  /** What the beam carries at its pivot. */
  readonly root: BeamSection;
  readonly tipping: readonly TippingMoment[];
  /** Everything from outside that bears on the vehicle: at rigging points, redirects and brakes. */
  readonly onVehicle: readonly AppliedForce[];
}

/** Everything the ladder and the vehicle feel in one travel case. */
export interface AerialForces extends FeltForces {
  /** Along the beam, from pivot to tip. */
  readonly curve: readonly BeamSection[];
  /** The same for the rated vertical tip load; null: no rating at this pose. */
  readonly ratedCurve: readonly BeamSection[] | null;
}

export interface Clearance {
  readonly id: string;
  readonly kind: "ladder" | "load" | "loadToLadder" | "loadToVehicle" | "rope" | "power";
  readonly what: string;
  readonly toWhat: string;
  readonly distanceM: number;
  readonly touching: boolean;
  readonly a: SiteVector;
  readonly b: SiteVector;
  /** null: no limit known. */
  readonly requiredM: number | null;
  readonly voltageKv?: number | null;
  /** Said after the distance where it is not known where the first of the two is: from where it is measured, and why. */
  readonly unplaced?: string;
  /** The first of the two is a rope that may hang in any way below a straight line: it is never nearer than this. */
  readonly atLeast?: boolean;
}

/** Where everything stands, for the drawings. */
export interface Geometry {
  readonly posed: PosedAerial;
  /** Tip without sag, where sag is used; else the same as `posed.tip`. */
  readonly unloadedTip: SiteVector;
  readonly riggingPoints: readonly {
    readonly id: string;
    readonly name: string;
    readonly at: SiteVector;
    readonly used: boolean;
  }[];
  readonly ladder: Solid;
  readonly platform: Solid | null;
  /** Vehicle outline on the ground, four corners. */
  readonly vehicle: readonly SiteVector[];
  readonly vehicleSolid: Solid;
  readonly jacks: readonly { readonly id: string; readonly name: string; readonly at: SiteVector }[];
  readonly anchors: readonly {
    readonly id: string;
    readonly name: string;
    readonly at: SiteVector;
    readonly used: boolean;
  }[];
  readonly structures: readonly { readonly id: string; readonly name: string; readonly solids: readonly Solid[] }[];
}

export interface HungLoad {
  /** Where the yoke was wanted and where it is. */
  readonly wanted: SiteVector;
  readonly yoke: SiteVector;
  readonly box: Solid;
  readonly bridleFeet: readonly SiteVector[];
  readonly massKg: number | null;
  readonly persons: number;
  readonly weightN: number | null;
  /** Of rope that hangs with the load at the yoke, half of each part that ends there; null: of some rope not known, or nothing solved. */
  readonly ropesN: number | null;
  readonly windN: SiteVector | null;
  /** What the ground does to it, N, where lines that do not hold it let it down onto it; null: it hangs. */
  readonly groundN: SiteVector | null;
}

/** Whether the wanted place can be held, and where the load would really go if not. */
export type Holding =
  | { readonly state: "held" }
  | { readonly state: "drifts"; readonly goesTo: SiteVector; readonly says: Phrase }
  | { readonly state: "unsolved"; readonly code: string; readonly where: string; readonly says: Phrase };

/** The skate tether as it works at this moment. */
export interface TetherState {
  readonly id: string;
  readonly name: string;
  /** Where its pulley rides. */
  readonly pulleyAt: SiteVector;
  readonly tensionN: number;
  /** Yoke to pulley, and what the tackle can do, m. */
  readonly lengthM: number;
  readonly lengthMinM: number;
  readonly lengthMaxM: number;
  /** What the pulley has run up against: the tip sheave, the first redirect, the yoke; null while it rides free. */
  readonly against: "tip" | "redirect" | "yoke" | null;
  /** From the pulley, wherever the friction of sheaves has it ride, to the ladder (and platform), m. */
  readonly ladderClearM: number;
  /** Part of its pull along the ladder toward the tip, N; negative is toward the pivot. */
  readonly alongLadderN: number;
}

/** What would happen if one hand-held line were let go here. */
export interface LetOut {
  readonly lineId: string;
  readonly name: string;
  /** Largest swing from plumb, of the middle of the load's mass. */
  readonly angleRad: number;
  readonly amplitudeM: number;
  /** There and back, s. */
  readonly periodS: number;
  /** Highest pull on the main lines over the load's weight, and how much more than that it is, N. */
  readonly tensionRatio: number;
  readonly extraTensionN: number;
  /** Rope that the tether's pulley held out and that runs straight: the load drops as much further, m; 0 for a tagline. */
  readonly heldOutM: number;
  /** From where it is held down to the lowest point, m. */
  readonly dropM: number;
  /** The far end of the swing, and the way there from where it is held, of the yoke. */
  readonly farAt: SiteVector;
  readonly arc: readonly SiteVector[];
  /** Nearest the load comes to a structure, the ladder or the vehicle on the way; null: nothing there. */
  readonly clearanceM: number | null;
  readonly nearestTo: string | null;
}

export interface Evaluation {
  readonly problems: readonly InputProblem[];
  readonly geometry: Geometry;
  readonly load: HungLoad;
  readonly holding: Holding;
  /** null: no tether on the load, or nothing solved. */
  readonly tether: TetherState | null;
  /** Empty where nothing could be solved. */
  readonly lines: readonly RunningLine[];
  /** The cases that were solved: one when the ropes move, two at rest; empty where nothing could be solved. */
  readonly cases: readonly TravelCase[];
  readonly felt: Readonly<Partial<Record<TravelCase, AerialForces>>>;
  readonly ratedTipLoadN: number | null;
  readonly ratingReason: Phrase;
  readonly clearances: readonly Clearance[];
  /** Worst first. */
  readonly ledger: readonly Check[];
  readonly worst: { readonly status: Status; readonly ratio: number | null; readonly checkId: string | null };
  readonly otherLoad: OtherLoad;
}

/** What every check would be with an attendant on the load, or without the one there is. */
export interface OtherLoad {
  readonly says: "With an attendant" | "Without the attendant";
  /** Worst first. */
  readonly ledger: readonly Check[];
  readonly worst: Evaluation["worst"];
}
