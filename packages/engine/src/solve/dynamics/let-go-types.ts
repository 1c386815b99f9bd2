import type { Failure } from "../../base/outcome.ts";
import type { SiteVector, Triple } from "../../base/vector.ts";
import type { Travel } from "../../rope/network.ts";
import type { Shape } from "../../scene/solids.ts";

/** A place that ropes end at or run over. With a mass it moves, without one it stays, unless it rides. */
export interface LetGoNode {
  /** Where it is just before a line goes, site frame, m. */
  readonly positionM: Triple;
  /** kg, above 0. Left out: it stays where it is, or rides. */
  readonly massKg?: number;
  /**
   * A running pulley whose own mass is left out: at every moment it is where the ropes over it and those that end at it
   * balance. No mass, no loss, one of them at most, and a rope that runs through it. Dampers do not work on the parts of
   * ropes that end at it.
   */
  readonly rides?: boolean;
  /** m/s. Left out: at rest. */
  readonly velocityMS?: Triple;
  /** Steady force besides the weight, such as wind, N. Left out: none. */
  readonly forceN?: Triple;
  /** Half the size of the upright box about it that touches stops and is measured to solids, m: east, north, up. Left out: a point. */
  readonly halfSizeM?: Triple;
  /** It gives along one line only, as a ladder's tip does. Needs a mass: what moves with the tip, in kg. Left out: free in all directions. */
  readonly gives?: Give;
}

/** A spring along one direction, in balance with all ropes and the weight just before a line goes. */
export interface Give {
  /** Any length but 0. */
  readonly along: Triple;
  /** N/m, above 0; null: not known. */
  readonly stiffnessNM: number | null;
}

/** What is at the last node of a line. */
export type LineHolding =
  /** Held fast. With `letsGoAtN` it holds up to that tension there, N, and then not at all: a hand's grip, a part that parts. */
  | { readonly kind: "fixed"; readonly letsGoAtN?: number }
  /** Pays out at this tension there, N, and takes nothing back; null: not known. */
  | { readonly kind: "brake"; readonly slipsAtN: number | null }
  /** Hands that give and take so as to keep this tension there, N; null: not known. */
  | { readonly kind: "hands"; readonly tensionN: number | null };

/**
 * A rope through an ordered list of nodes; each inner node is a sheave. `null` means not known, and is refused where it
 * counts. Exactly one of `startTensionN` and `lengthM` tells how much rope there is.
 */
export interface LetGoLine {
  /** The load's end first, what holds it last. */
  readonly through: readonly string[];
  /** Dynamic EA, N, above 0: from an impact test, not from slow stretch. Not needed of one held by hands over sheaves without loss. */
  readonly axialStiffnessN: number | null;
  /** Tension at the first node just before, N, 0 or more. */
  readonly startTensionN?: number | null;
  /** Rope from end to end with no tension in it, m, above 0. Longer than the way it runs: slack. */
  readonly lengthM?: number | null;
  /** Viscous part of the tension over the whole line's rate of stretch, N·s/m, 0 or more (Kelvin–Voigt). Left out: 0. See `dampingOfRatio`. Not of a line held by hands. */
  readonly dampingNsM?: number;
  /** Efficiency of each inner sheave, for a 180° wrap, in (0, 1]. Left out: 1. */
  readonly efficiency?: readonly (number | null)[];
  /** Which way the rope last ran, and so which way its sheaves hold, just before. Left out: `none`, the same tension all along. */
  readonly travel?: Travel;
  /** Left out: fixed. */
  readonly holding?: LineHolding;
}

/** A plane; `normal` is away from what is barred, of any length but 0. */
export interface StopPlane {
  readonly pointM: Triple;
  readonly normal: Triple;
  /** Where two parts of one body meet: a side that bounds this part, and that nothing can hit. Left out: no. */
  readonly inner?: boolean;
}

/** What bars the way. What hits it does not bounce, and slides along it without friction, off its edge too. */
export type Stop = (StopPlane | StopBody) & {
  /** Which nodes it bars. Left out: all that move freely. */
  readonly nodes?: readonly string[];
};

/**
 * A convex body: all that lies behind every one of its planes. Boxes are upright: of a body whose sides are upright too,
 * planes to the four winds about it make its corners exact.
 */
export interface StopBody {
  readonly planes: readonly StopPlane[];
}

/** A part of the ropes' force on a node, or on several together, that is to be followed by itself, such as what bends a ladder sideways. */
export interface Watch {
  readonly node: string | readonly string[];
  /** Any length but 0. */
  readonly along: Triple;
}

/** Ropes and a load as they are just before something goes. */
export interface LetGoSystem {
  readonly nodes: Readonly<Record<string, LetGoNode>>;
  readonly lines: Readonly<Record<string, LetGoLine>>;
  /** The node whose drop and swing are asked for. */
  readonly load: string;
  readonly stops?: Readonly<Record<string, Stop>>;
  /** Measured to along the way; they stop nothing. */
  readonly solids?: Readonly<Record<string, Shape>>;
  readonly watch?: Readonly<Record<string, Watch>>;
  /** m/s², down. Left out: 9.80665. */
  readonly gravityMS2?: number;
}

export interface LetGoOptions {
  /** Error allowed in a step, of 1 m or of 1 m/s, or of the value where that is more. Left out: 1e-6. */
  readonly tolerance?: number;
  /** Followed for no longer than this, s. Left out: 20. */
  readonly durationS?: number;
  /** Most samples in `motion`, 2 or more. Where there is room, the moments of all peaks are among them. Left out: 120. */
  readonly mostSamples?: number;
  /** Are the forces on held nodes sampled too? Left out: no. */
  readonly sampleForces?: boolean;
}

export interface LinePeak {
  /** Highest tension at the first node, N, and when, s. */
  readonly peakN: number;
  readonly atS: number;
  /** Highest tension of each segment, N, the first node's first; each at its own time. */
  readonly segmentPeaksN: readonly number[];
  /** Did it go slack, or was it so from the start? */
  readonly wasSlack: boolean;
  /** Rope that its brake or its hands let through, m; hands that took in: below 0. */
  readonly paidOutM: number;
  /** When what held it let go, s; null: it did not. */
  readonly letGoAtS: number | null;
}

/** The greatest force of the ropes on a node that does not move freely. */
export interface NodePeak {
  readonly peakN: number;
  /** The force at that time, site frame, N: what the ropes do to the node. */
  readonly forceN: SiteVector;
  readonly atS: number;
}

export interface LoadPath {
  /** How far the lowest place lies below the start, m, 0 or more. */
  readonly dropM: number;
  readonly lowest: SiteVector;
  /** Greatest level distance from the start, m. */
  readonly swingM: number;
  readonly farthest: SiteVector;
  readonly topSpeedMS: number;
  readonly last: SiteVector;
}

/** A node's box hits a stop, or a running pulley runs up against the next place of its rope (`stop` then names that node). */
export interface Touch {
  readonly node: string;
  readonly stop: string;
  readonly atS: number;
  /** Speed toward it, m/s. */
  readonly speedMS: number;
  /** Unit, away from what was hit. */
  readonly away: SiteVector;
}

/** The load's nearest to a solid, or to a stop that is one plane, along the way. */
export interface Approach {
  /** m; 0 where they touch. */
  readonly distanceM: number;
  readonly atS: number;
  /** Where the load was. */
  readonly load: SiteVector;
}

/**
 * Where the energy went, J, from just after the line has gone to the end. `start` and `end` are of motion, stretch, height
 * and steady forces, height being counted from the start. `end` + all that was lost − `start` is `closure`.
 */
export interface EnergyBook {
  readonly startJ: number;
  readonly kineticJ: number;
  readonly strainJ: number;
  readonly potentialJ: number;
  /** In the ropes. */
  readonly dampingJ: number;
  /** At sheaves. */
  readonly frictionJ: number;
  readonly brakeJ: number;
  /** Taken up by hands; below 0: given by them. */
  readonly handsJ: number;
  /** In hits. */
  readonly hitsJ: number;
  /** Stored in lines that let go along the way. */
  readonly letGoJ: number;
  readonly closureJ: number;
  /** `closureJ` over the energy that changed hands: the greatest of all terms above, a thousandth of a joule at least. */
  readonly closureShare: number;
}

/** The way it went, at instants about evenly apart, and where every line pulled hardest and the load was lowest and farthest. */
export interface Motion {
  readonly timesS: readonly number[];
  /** Of every node that moves. */
  readonly places: Readonly<Record<string, readonly SiteVector[]>>;
  /** At the first node of every line that is left. */
  readonly tensionsN: Readonly<Record<string, readonly number[]>>;
  /** What the ropes do to every node that `nodes` tells the peak of, site frame, N; none where it is not asked for. */
  readonly forcesN: Readonly<Record<string, readonly SiteVector[]>>;
}

export interface LetGo {
  readonly ok: true;
  /** `rest`: everything came to rest. `time`: it still moved at the end of the time given, with less energy or the same. */
  readonly ended: "rest" | "time";
  readonly timeS: number;
  readonly steps: number;
  /** Of every line that is left. */
  readonly lines: Readonly<Record<string, LinePeak>>;
  /** Of every node that is fixed or gives along one line, and that a rope left over touches. */
  readonly nodes: Readonly<Record<string, NodePeak>>;
  /** Of each part watched: its greatest size, either way (`peakN`), and the whole force on its nodes at that time. */
  readonly watched: Readonly<Record<string, NodePeak>>;
  readonly load: LoadPath;
  readonly touches: readonly Touch[];
  readonly approaches: Readonly<Record<string, Approach>>;
  readonly energy: EnergyBook;
  readonly motion: Motion;
}

/** What brings a failure about again. */
export interface LetGoReplay {
  readonly system: LetGoSystem;
  readonly cut: readonly string[];
  readonly options: LetGoOptions;
}

/**
 * `unknown`: something that counts is not known. `bad-input`: a number or a name that cannot be. `nothing-holds`: the load
 * falls beyond what any rope could hold. `not-converged`: the steps were used up. `where` is the path of the field, or the node.
 */
export type LetGoFailure = Failure<"unknown" | "bad-input" | "nothing-holds" | "not-converged", LetGoReplay>;
export type LetGoOutcome = LetGo | LetGoFailure;
