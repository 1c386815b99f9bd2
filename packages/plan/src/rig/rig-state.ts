import type { SiteVector } from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import type { LaidMain, LaidTag } from "./lay-lines.ts";

/** A main line as it runs: where its tip sheave sits and the tension of each segment in each travel case. */
export interface MainState {
  readonly laid: LaidMain;
  readonly sheaveAt: SiteVector;
  readonly tensionsN: Readonly<Record<TravelCase, readonly number[]>>;
}

export interface TagState {
  readonly laid: LaidTag;
  readonly tensionN: number;
}

/** Equilibrium found: where the yoke hangs and what every rope carries. */
export interface RigState {
  readonly yoke: SiteVector;
  readonly mains: readonly MainState[];
  readonly tags: readonly TagState[];
  /** Force left over at the yoke, N. */
  readonly residualN: number;
}

export type RigOutcome =
  | { readonly ok: true; readonly state: RigState }
  | { readonly ok: false; readonly code: string; readonly where: string; readonly says: string };
