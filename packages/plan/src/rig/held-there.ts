import type { SiteVector } from "@gantline/engine";
import type { Floating } from "./settle-rig.ts";

/** How far from where it is wanted the load may hang and still count as held there, m. Planning default, no source. */
export const HELD_WITHIN_M = 0.15;

/** Where the load hangs and what pulls on it there. */
export interface HeldThere {
  readonly floating: Floating;
  readonly found: FoundThere;
}

export interface FoundThere {
  readonly yoke: SiteVector;
  /** Tension of each main line and each tagline at the load, and of the tether, N. */
  readonly mainsN: readonly number[];
  readonly tagsN: readonly number[];
  readonly tetherN: number;
  /** What the ground does to it, N; null: it hangs. */
  readonly groundN: SiteVector | null;
  readonly residualN: number;
}

/** What acts on the load besides its lines. */
export interface ActingOnLoad {
  /** Weight without that of ropes, and wind, N. */
  readonly forceN: SiteVector;
  /** The yoke's place when the load stands on the ground; null: it hangs. */
  readonly standing: SiteVector | null;
}
