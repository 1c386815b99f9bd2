import type { BeamForce, LetGoSystem, Motion, SiteVector, Utilisations } from "@gantline/engine";
import type { Check, Status } from "../check.ts";
import type { TimedCheck, When } from "../evolve/evolution-types.ts";
import type { Phrase } from "../units/quantity.ts";

/**
 * A figure as it follows from the numbers entered, between the least and the most that the range of the rope's dynamic
 * stiffness, its damping and the sheaves' hold at rest let it be. Checks are judged by `high`.
 */
export interface Band {
  readonly low: number;
  readonly entered: number;
  readonly high: number;
}

/** What the solved rig is made to a dynamic system by. All may be left out. */
export interface LetGoChoices {
  /** Dynamic EA over that entered, above 0. Left out: 1. */
  readonly stiffnessFactor?: number;
  /** Share of critical damping of each rope with the load on it, 0 or more. Left out: 0, which takes nothing off a peak. */
  readonly dampingRatio?: number;
  /** Rope that each of these lines gives before it holds, m, by id. Left out: none. */
  readonly slackM?: Readonly<Record<string, number>>;
  /** Which way the ropes last ran over their sheaves. Left out: the plan's motion; at rest as after a raise. */
  readonly ran?: "raise" | "lower";
  /** The ladder's tip gives square to the ladder in its vertical plane. Left out: it does not give, an upper figure. */
  readonly tip?: { readonly stiffnessNM: number; readonly massKg: number };
  /** Places of a main line that let go of its rope before: it runs on without them, by so much slack. */
  readonly lost?: readonly { readonly lineId: string; readonly placeId: string }[];
  /** Taglines that are belays and not held by hands, by id. */
  readonly belays?: Readonly<Record<string, Belay>>;
  /** `moves`: the tether's pulley rides as a mass of 2 kg. `stays`: it keeps its place and the tether its pull. Left out: `stays`. */
  readonly rider?: "moves" | "stays";
}

/** A line that is held by a brake, where the plan has the tagline's hands or, led over an edge there, behind it. */
export interface Belay {
  /** The brake, by its id in the gear. */
  readonly brake: string;
  /** null: the brake is where the hands are. */
  readonly over: {
    /** Of what the rope runs over at the edge, for a 180° wrap; null: not known. */
    readonly efficiency: number | null;
    readonly brakeAt: SiteVector;
  } | null;
}

/** A brake that slips under what it holds before anything goes, N. */
export interface SlippingBrake {
  readonly lineId: string;
  readonly holdsN: number;
  readonly slipsAtN: number;
}

/** A plan's rig as a dynamic system, ready for `letGo`. */
export interface PlanSystem {
  readonly ok: true;
  /** Lines by their plan ids, the load at its yoke as `yoke`. Stops and solids are raised by `boxDropM`: see `letGoSystem`. */
  readonly system: LetGoSystem;
  /** Main lines and belays whose brake's slip force is not known and no policy gives: held fast, an upper figure. */
  readonly slipUnknown: readonly string[];
  /** Those whose brake slips before anything goes: no motion can be followed from there. */
  readonly slipping: readonly SlippingBrake[];
  /** Middle of the load's box below its yoke, m. */
  readonly boxDropM: number;
}

export interface SystemUnknown {
  readonly ok: false;
  /** `unknown`: something that counts is not entered. `unsolved`: nothing is in balance to begin with. */
  readonly code: "unknown" | "unsolved";
  readonly says: Phrase;
  readonly field: string;
}

/** Highest tension of one line. */
export interface LineForce {
  readonly lineId: string;
  readonly name: string;
  readonly role: "main" | "tagline" | "tether";
  /** Anywhere along it, and at what holds it: brake or hands, N. */
  readonly peakN: Band;
  readonly atEndN: Band;
  /** Highest of each part between places of its rope that are left, the load's first: the band's high end, N. */
  readonly segmentsN: readonly number[];
  /** Before, at the load, N. */
  readonly beforeN: number;
  readonly wentSlack: boolean;
  /** What the hands on it can hold, N; null: it is in a brake, or made fast. */
  readonly handsHoldN: number | null;
  /** The hands could not hold it. */
  readonly letGo: boolean;
  /** The brake that holds it, by its id in the gear; null: it is in hands, or made fast. */
  readonly brake: string | null;
  /** Rope through the brake, the most of all runs, m. */
  readonly slippedM: number;
}

/** Highest force at one rigging point, and what the ladder feels of it. */
export interface PointPeak {
  readonly pointId: string;
  readonly name: string;
  readonly at: SiteVector;
  readonly peakN: Band;
  /** On the ladder at its highest, N. */
  readonly forceN: SiteVector;
  /** Each part at its own highest, at its own time; the whole, and its directions, at the whole's. */
  readonly inBeam: BeamForce;
}

/** Where the load comes nearest to something on its way. */
export interface NearestWay {
  readonly what: string;
  /** The least over the band, m; 0: it touches. */
  readonly distanceM: number;
  readonly bandM: Band;
  readonly atS: number;
  /** Where the yoke is then. */
  readonly yoke: SiteVector;
}

/** What the load runs against. */
export interface Hit {
  readonly what: string;
  /** The highest over the band, m/s; its low end is 0 where some of it does not reach it. */
  readonly speedMS: number;
  readonly bandMS: Band;
  readonly atS: number;
}

/** What happens when lines go while others still hold. */
export interface LetGoFigures {
  readonly lines: readonly LineForce[];
  readonly points: readonly PointPeak[];
  /** Sum over the rigging points, and the peak against the maker's table; the highest of each counted as at one moment. */
  readonly tipN: Band;
  /** The same before, N. */
  readonly tipBeforeN: number;
  /** Each part at its own highest over the band, at its own time; the whole, and its directions, at the whole's. */
  readonly tipInBeam: BeamForce;
  /** Bending and compression by each part at its own highest, as if at one moment. */
  readonly utilisations: Utilisations;
  /** Highest force in each part of the load paths that are left, N, by the id `listComponents` gives it; of a fine pass only. */
  readonly partsN: Readonly<Record<string, number>>;
  /** On the person it pulls hardest at: their part by mass of all ropes' peaks; null: nobody on the load. */
  readonly person: { readonly name: string; readonly peakN: Band } | null;
  readonly dropM: Band;
  readonly swingM: Band;
  /** Nearest first. */
  readonly nearest: readonly NearestWay[];
  readonly hits: readonly Hit[];
  readonly lowest: SiteVector;
  readonly farthest: SiteVector;
}

/** How the ladder's tip is taken. */
export type Tip = "stiff" | "gives";

/** How it is to be taken in what follows many cuts. */
export interface TipChoice {
  /** It gives as the ladder's sections do, in every cut; where these are not entered what happens is not known. Left out: it is stiff. */
  readonly tipGives?: boolean;
}

/** What happens at one moment when one or more lines go. */
export interface LetGoCase {
  /** null: the plan's one position. */
  readonly when: When | null;
  /** Ids of the lines that go. */
  readonly cut: readonly string[];
  /** What the yoke is at before. */
  readonly yoke: SiteVector;
  /** `held`: lines that are left hold it. `falls`: nothing does, or not before it is down, or a brake lets it down. */
  readonly outcome: "held" | "falls" | "unknown";
  /** In plain words; always there. */
  readonly says: Phrase;
  /** Names of the lines that hold then. */
  readonly holds: readonly string[];
  /** Main lines and belays whose brake was held fast for want of its slip force. */
  readonly slipUnknown: readonly string[];
  /** null where it falls or is not known. */
  readonly figures: LetGoFigures | null;
  /**
   * With the damping that ropes are reckoned to have, for a replay; places are the yoke's. null where not asked for. Where it
   * falls: the fall until the load is down, of which there is one only, without damping.
   */
  readonly motion: CaseMotion | null;
  /** As entered and without damping, as the figures are; for curves. Followed for 8 s, and on while a brake slips. null where not asked for. */
  readonly undamped: CaseMotion | null;
  /** How the damped motion ends: at rest, or still moving when it is followed no longer; where the yoke is then, and what the lines left pull at the load, N. */
  readonly settled: {
    readonly atRest: boolean;
    readonly timeS: number;
    readonly yoke: SiteVector;
    readonly tensionsN: Readonly<Record<string, number>>;
  } | null;
  /** Where it falls or is let down: null where it is held, or that is not known. */
  readonly fall: LoadFall | null;
  /** Free fall from where it hangs to what is below it, m. */
  readonly roomM: number;
}

/** A force in the ladder's axes. */
export type BeamParts = Pick<BeamForce, "compressionN" | "normalN" | "lateralN" | "resultantN">;

/** A sampled motion with what is worked out from it, at the same instants. */
export interface CaseMotion extends Motion {
  /** At each rigging point, by its id, N. */
  readonly pointsN: Readonly<Record<string, readonly BeamParts[]>>;
  /** From the load to everything it may come near, by name as in `nearest`, m. */
  readonly nearestM: Readonly<Record<string, readonly number[]>>;
}

/** How the load comes down where it is not held. */
export interface LoadFall {
  /** From where its foot was to what it comes down on, m; and how fast it then is, m/s. */
  readonly heightM: number;
  readonly speedMS: number;
  /** Name of what it comes down on. */
  readonly onto: string;
  /** Rope that brakes had let through by the end, m; 0: it is not for that. */
  readonly slippedM: number;
  /** From when it goes until it is down, s; null: it was not followed that long. */
  readonly timeS: number | null;
  /** What a part of it touches before: an edge or a parapet beside what is below its middle. A replay ends there. null: nothing. */
  readonly strikes: Strike | null;
}

/** The first touch of a free fall. */
export interface Strike {
  /** Name of what it touches. */
  readonly what: string;
  readonly heightM: number;
  readonly timeS: number;
  readonly speedMS: number;
}

/** A case of the sweep, in few numbers: the worse of the softest and the stiffest ropes, loosely followed. */
export interface SweptCut {
  readonly when: When;
  /** 0 to 1 over the whole evolution, every stage taking the same width. */
  readonly at: number;
  readonly lineId: string;
  readonly outcome: LetGoCase["outcome"];
  /** N; null where it falls or is not known. */
  readonly tipN: number | null;
  /** Lines whose brake was held fast for want of its slip force: then it is an upper figure. */
  readonly slipUnknown: readonly string[];
}

/** The worst for one line over the evolution. */
export interface WorstCut {
  readonly lineId: string;
  readonly name: string;
  /** Its loss at the moment at which that is worst, followed finely. */
  readonly worst: LetGoCase;
}

/** Highest tip force over how the load is shared and how much rope runs in the survivor, when the line with more goes. */
export interface ShareSlackMap {
  readonly when: When | null;
  readonly cut: string;
  /** Part of the load on the line that goes, rising; and slack, m, rising. */
  readonly shares: readonly number[];
  readonly slacksM: readonly number[];
  /** By share, then by slack. */
  readonly cells: readonly (readonly ShareSlackCell[])[];
  /** Lines whose brake was held fast for want of its slip force: then all of it is an upper figure. */
  readonly slipUnknown: readonly string[];
  /** This plan, followed finely: its checks are judged by the high end. */
  readonly here: { readonly share: number; readonly slackM: number } & ShareSlackCell;
}

/** One share and one slack, over the range of the ropes' stiffness. */
export interface ShareSlackCell {
  /** Does it fall at any of the stiffnesses, or is it not known at any? */
  readonly outcome: LetGoCase["outcome"];
  /** Ends of the band, N; null: it is not held, or not known. */
  readonly tipN: Pick<Band, "low" | "high"> | null;
  /** Does the load come down on what is below, at any of the stiffnesses? */
  readonly lands: boolean;
}

/** Every line cut at every moment. */
export interface LetGoEvolution {
  /** How the tip was taken, in every cut: stiff, or giving as the ladder's sections do. */
  readonly tip: Tip;
  /** In order of moment, then of line. */
  readonly cuts: readonly SweptCut[];
  /** Each line at its worst, worst first. */
  readonly worst: readonly WorstCut[];
  /** The cases that decide a check, each followed finely. */
  readonly deciding: readonly LetGoCase[];
  /** Checks on them, each at its worst moment, worst first: to stand in the ledger beside those of `evolve`. */
  readonly ledger: readonly TimedCheck[];
  /** At the moment at which the load has most room to fall; null: not two main lines. */
  readonly map: ShareSlackMap | null;
}

/** One part, anchor or pair of hands taken away. */
export interface CriticalPoint {
  /** As `main-a/tip.sheave`; anchors and rigging points that are used more than once come once. */
  readonly id: string;
  readonly subject: string;
  readonly kind: "part" | "anchor" | "hands" | "everyone";
  readonly at: SiteVector;
  /** Lines that hang on it. More than one main line: it is shared. */
  readonly lines: readonly string[];
  readonly shared: boolean;
  /** There is one of it on any such rig: yoke, bridle, litter, ladder. Judged by its own strength, and told apart. */
  readonly unavoidable: boolean;
  readonly outcome: LetGoCase["outcome"];
  /** "Main B holds, …", or "Nothing: a person falls." */
  readonly says: Phrase;
  /** What happens; null where nothing moves, or it is not known. */
  readonly result: LetGoCase | null;
}

/** What is taken away at one moment. */
export interface PointsAt {
  readonly when: When | null;
  readonly points: readonly CriticalPoint[];
}

export type TechniqueId =
  | "two-tension"
  | "single-and-structure-belay"
  | "main-and-slack-belay"
  | "tackle-at-tip"
  | "return-to-side";

/** The worst of the checks on a loss that count. */
export interface TechniqueVerdict {
  readonly status: Status;
  /** Which is worst with every brake held fast whose slip force is not known: where `status` is unknown for want of that, an upper figure. */
  readonly ifHeld: Pick<Check, "subject" | "status" | "ratio">;
}

/** One technique on the plan's scene with the plan's load, one row of the comparison. */
export interface TechniqueRow {
  readonly id: TechniqueId;
  readonly name: string;
  readonly attendant: boolean;
  /** How the tip was taken in its losses: stiff, or giving as the ladder's sections do. */
  readonly tip: Tip;
  /** null where nothing holds the load: `says` tells why. */
  readonly figures: {
    /** Each its highest of raising and lowering, with its sign. */
    readonly tipInBeam: BeamParts;
    /** Worst bending moment along the ladder in its vertical plane, N·m. */
    readonly ladderMomentNm: number;
    /** Worst over the jack lines, N·m; negative: nothing tips it. */
    readonly tippingNm: number | null;
    readonly ropeM: number;
    /** Crews, and one at each brake; and while the load is raised by hand at the ropes' ends, null: not known. */
    readonly people: number;
    readonly peopleRaising: number | null;
  } | null;
  /** The maker's tip rating as the tip is used at rest, worst of raising and lowering: status, and the part of it used; null: not solved. */
  readonly tipAtRest: Pick<Check, "status" | "ratio"> | null;
  readonly says: Phrase;
  /** Of each line's loss the worst, by what is judged. */
  readonly worst: LetGoCase | null;
  /** Names of the lines that go then: "Main A and Tackle". */
  readonly gone: string;
  /** What the checks say of it; null: nothing was followed. */
  readonly verdict: TechniqueVerdict | null;
  /** What it takes that plan and scene lack: "someone on top already". */
  readonly needs: readonly string[];
  /** Rope that goes on from an edge to a brake behind it, where the variant's plan has no line: for drawings. */
  readonly behindEdge: readonly (readonly [SiteVector, SiteVector])[];
}
