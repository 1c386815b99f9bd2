import type { Failure } from "../base/outcome.ts";
import type { Triple } from "../base/vector.ts";

/** Which way the rope runs over its sheaves; `none` is frictionless. `toEnd`: from the first node toward the last. */
export type Travel = "toEnd" | "toStart" | "none";

export interface NetworkNode {
  /** Where the node is (fixed) or where the search for its place begins (free), site frame, m. */
  readonly position: Triple;
  readonly free?: boolean;
  readonly massKg?: number;
  /** Force from outside the ropes, besides weight, N. */
  readonly forceN?: Triple;
}

/** A rope through an ordered list of nodes; each inner node is a sheave. Held by length and stiffness, or by a tension at its first node. */
export interface NetworkLine {
  readonly through: readonly string[];
  /** Unstretched length, m; with `axialStiffnessN`. */
  readonly lengthM?: number;
  /** EA, N. */
  readonly axialStiffnessN?: number;
  /** Tension at the first node, N; instead of a length. */
  readonly tensionN?: number;
  /** Efficiency of each inner sheave, quoted for a 180° wrap, in (0, 1]. Left out: 1. */
  readonly efficiency?: readonly number[];
  readonly travel?: Travel;
  /** Rope mass per metre, kg/m, lumped half and half on the ends of each segment. Left out: 0. */
  readonly linearMassKgM?: number;
  /** Hang in an elastic catenary instead of straight: for a line through two nodes, with a rope mass above 0. Left out: false. */
  readonly sag?: boolean;
}

export interface Network {
  readonly nodes: Readonly<Record<string, NetworkNode>>;
  readonly lines: Readonly<Record<string, NetworkLine>>;
  /** m/s², down. Left out: 9.80665. */
  readonly gravityMS2?: number;
}

export interface LineAnswer {
  /** Tension of each segment, N, the first node's first; of a line that sags, the tension at its first node. */
  readonly tensionsN: readonly number[];
  /** Of a line that sags: tension at its last node, N. */
  readonly tensionAtEndN?: number;
  readonly slack: boolean;
  /** Stretched length of each segment, m; of a line that sags, along the rope. */
  readonly segmentsM: readonly number[];
  /** Rope length with no tension in it, m; `null` for a straight line held by tension with no stiffness given. */
  readonly unstretchedM: number | null;
}

export interface NetworkAnswer {
  readonly ok: true;
  /** Largest force out of balance at any free node, N. */
  readonly residualN: number;
  readonly iterations: number;
  readonly nodes: Readonly<Record<string, { readonly position: Triple }>>;
  readonly lines: Readonly<Record<string, LineAnswer>>;
  /** What the ropes do to each fixed node, N, site frame. */
  readonly forcesOnFixedN: Readonly<Record<string, Triple>>;
}

/**
 * `nothing-holds`: the load falls without end, or would have to be pushed. `mechanism`: a node that nothing places,
 * with a mass or a force, or on no line that leads to a fixed node.
 * `two-blocked`: two nodes are drawn onto each other. `not-converged`: none of these, and no answer either.
 * `where` is the node: the one that goes farthest, the loose one, the free one of two that meet, the one farthest out of balance;
 * `other` the other of two that meet.
 */
export type NetworkFailure = Failure<"nothing-holds" | "mechanism" | "two-blocked" | "not-converged", Network> & {
  readonly other?: string;
};
export type NetworkSolution = NetworkAnswer | NetworkFailure;
