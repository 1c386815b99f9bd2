import type { SiteVector } from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import type { GearOf } from "../schema/gear.ts";
import type { LaidMain, LaidTag, LaidTether } from "./lay-lines.ts";

/** A place a main line runs through, in order from the yoke. */
export interface RopeNode {
  readonly id: string;
  readonly name: string;
  readonly kind: "yoke" | "tip" | "rider" | "redirect" | "brake";
  readonly at: SiteVector;
  readonly onVehicle: boolean;
  /** Of the sheave there, for a 180° wrap; null: not known, or no sheave. */
  readonly efficiency: number | null;
  /** Weight of rope that hangs here, N: half of each part on either side. */
  readonly ropeN: number;
}

/** A main line as it runs, and the tension of each segment in each travel case. */
export interface MainState {
  readonly laid: LaidMain;
  readonly nodes: readonly RopeNode[];
  readonly tensionsN: Readonly<Record<TravelCase, readonly number[]>>;
}

export interface TagState {
  readonly laid: LaidTag;
  /** The highest of the travel cases that count, N. */
  readonly tensionN: number;
  readonly tensionsN: Readonly<Record<TravelCase, number>>;
}

export interface TetherRun {
  readonly laid: LaidTether;
  readonly pulleyAt: SiteVector;
  /** The highest of the travel cases that count, N. */
  readonly tensionN: number;
  readonly tensionsN: Readonly<Record<TravelCase, number>>;
  /** Where its pulley rides with the friction of sheaves, raising and lowering; where it is known. */
  readonly ridesAt?: readonly SiteVector[];
  /** Does it draw its pulley along the ropes? Else the pulley hangs where they hold it. */
  readonly pulled: boolean;
  readonly against: "tip" | "redirect" | "yoke" | null;
}

/**
 * A line in the load's balance that has one length, whatever the place asks for: made fast by hand, or a tackle that can be let
 * out or drawn together no further.
 */
export interface SetLength {
  readonly lineId: string;
  readonly name: string;
  readonly why: "madeFast" | "runOut" | "drawnTogether";
  /** With no tension in it, m. */
  readonly lengthM: number;
  /** What it would have to be for the load to hang where it is wanted, m; null: its rope's stretch, or what holds the load there, is not known. */
  readonly neededM: number | null;
  /** Its pull then, N. */
  readonly pullN: number;
}

/** Equilibrium found: where the yoke hangs and what every rope carries. */
export interface RigState {
  readonly yoke: SiteVector;
  readonly mains: readonly MainState[];
  readonly tags: readonly TagState[];
  readonly tether: TetherRun | null;
  /** Lines that the load hangs by at a length of their own. */
  readonly set: readonly SetLength[];
  /** Ropes of unknown stiffness that the place rests on: taken as hardly stretching. */
  readonly stiffTaken: readonly GearOf<"rope">[];
  /** Weight of rope that hangs at the yoke, N; ropes of unknown weight left out. */
  readonly ropesAtYokeN: number;
  /** What the ground does to the load, N, where lines that do not hold it let it down onto it; null: it hangs. */
  readonly groundN: SiteVector | null;
  /** Force left over at the yoke, N. */
  readonly residualN: number;
}

export type RigOutcome =
  | { readonly ok: true; readonly state: RigState }
  | { readonly ok: false; readonly code: string; readonly where: string; readonly says: string };

/** Middle of a main line's tip sheave. */
export const sheaveOf = (main: MainState): SiteVector => main.nodes[1]?.at ?? main.laid.pointAt;
