import type { SiteVector, Triple } from "../../base/vector.ts";
import type { RopeChain } from "./rope-chain.ts";

/** A system with names turned to numbers. Nodes that move come in the state by their order in `movers`: place, then velocity, six each. */
export interface CompiledSystem {
  readonly gravityMS2: number;
  readonly nodeNames: readonly string[];
  /** Three per node, m and m/s, of the state last looked at. */
  readonly positionM: Float64Array;
  readonly velocityMS: Float64Array;
  readonly movers: readonly Mover[];
  /** Node → mover; −1 for a fixed one. */
  readonly moverOfNode: Int32Array;
  readonly load: Mover;
  /** The pulley that rides without mass; null: none. */
  readonly rider: Rider | null;
  readonly lines: readonly CompiledLine[];
  readonly stops: readonly CompiledStop[];
  /** What may come of them. */
  readonly barred: readonly StepEvent[];
  readonly watches: readonly CompiledWatch[];
  /** Places that stay or give along one line, and that a rope left over touches: what they bear is told. */
  readonly held: Int32Array;
  /** State just before. */
  readonly start: Float64Array;
}

export interface Mover {
  readonly node: number;
  readonly index: number;
  readonly massKg: number;
  /** Weight and steady force, N. */
  readonly steadyN: SiteVector;
  readonly startM: SiteVector;
  readonly halfSizeM: Triple;
  readonly gives: { readonly along: SiteVector; readonly stiffnessNM: number; startN: number } | null;
  /** Stops it lies against, by index. */
  readonly against: Set<number>;
  /** On which of its faces, per stop. */
  readonly face: Int32Array;
  /** How far beyond each stop it already was when last let off it, or at the start, m, 0 or less: it goes no farther. */
  readonly beyondM: Float64Array;
  /** Node that this pulley has run up against, or −1. */
  pinned: number;
}

/** A pulley without mass. It has no place in the state: it is where the ropes balance on it. */
export interface Rider {
  readonly node: number;
  readonly startM: SiteVector;
  readonly steadyN: SiteVector;
  /** Lines that run over it or end at it. */
  readonly lines: readonly CompiledLine[];
  /** How far it has lately gone with each metre of the load, three by three, by component of its own; and where the load was then, m. */
  readonly follows: Float64Array;
  readonly loadM: Float64Array;
  /** Node that it has run up against, or −1. */
  pinned: number;
}

export interface CompiledLine {
  readonly name: string;
  readonly through: Int32Array;
  readonly chain: RopeChain;
  /** Three per segment: unit vector toward its far node. */
  readonly along: Float64Array;
  /** Segments that end at what moves; all others stay as they are. */
  readonly live: readonly number[];
  /** Links with loss at which the rope's angle changes. */
  readonly turning: readonly number[];
  readonly letsGoAtN: number;
  /** Per link, and last for the end: which way rope is about to go over it, 1 toward the end, −1 toward the start, 0 not. */
  readonly forward: Int8Array;
  /** Those links over which rope can move against a loss or a brake; what has gone over each when last looked, m, and how fast, m/s. */
  readonly places: readonly number[];
  readonly flowM: Float64Array;
  readonly goingMS: Float64Array;
  /** Per segment: does the rope's damper work on its rate? Not where it ends at a pulley without mass, which has no velocity. */
  readonly worksOn: Uint8Array;
  gone: boolean;
  /** How fast the way grows on which the damper works, m/s. */
  rateMS: number;
}

export interface CompiledStop {
  readonly name: string;
  /** One: a plane. More: a convex body. */
  readonly faces: readonly CompiledFace[];
  /** null: all nodes. */
  readonly nodes: ReadonlySet<number> | null;
}

export interface CompiledFace {
  readonly pointM: Triple;
  readonly normal: SiteVector;
  readonly inner: boolean;
}

export interface CompiledWatch {
  readonly name: string;
  readonly nodes: readonly number[];
  readonly along: SiteVector;
}

/** Something that ends a step where it happens, since the motion goes on by another rule. */
export type StepEvent =
  | { readonly kind: "taut"; readonly line: CompiledLine }
  | { readonly kind: "slack"; readonly line: CompiledLine }
  | { readonly kind: "lets-go"; readonly line: CompiledLine }
  | { readonly kind: "touches"; readonly mover: Mover; readonly stop: number }
  /** It slides off the edge of the side of a body that it lies against. */
  | { readonly kind: "slides-off"; readonly mover: Mover; readonly stop: number }
  | { readonly kind: "runs-up"; readonly pulley: Mover | Rider; readonly node: number }
  /** A sheave or a brake over which rope moved is about to see it move back. */
  | { readonly kind: "turns" };
