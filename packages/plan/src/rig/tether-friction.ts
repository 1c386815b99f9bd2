import {
  addScaled,
  angleBetween,
  norm,
  pullsToHold,
  rideRopes,
  type SiteVector,
  sheaveRatio,
  site,
  subtract,
  unit,
} from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import type { HeldThere } from "./held-there.ts";
import type { LaidMain, LaidRig } from "./lay-lines.ts";
import { ropesAtYokeN } from "./rope-weight.ts";
import { isRidden, paced } from "./settle-rig.ts";

/** The pulley has come to rest when it moves no further than this, m. */
const RESTS_M = 1e-7;
const ROUNDS = 60;

/** What holds the load where it hangs while its ropes run, or are about to run, one way. */
export interface PullsInTravel {
  readonly mainsN: readonly number[];
  readonly tetherN: number;
  /** Where the tether's pulley rides then. */
  readonly rider: SiteVector | null;
}

/**
 * What must tether and main lines pull, with the friction of tip sheaves and riding pulley, to keep the load where it hangs?
 *
 * Raising, the returning ropes pull harder than the load does, and harder beyond the pulley than before it; lowering, less. So
 * the pulley rides elsewhere and the tether pulls another amount: place and pulls are found in turn, with the tensions that
 * act at the pulley. Load, tip sheaves and taglines stay as they are without friction; a tether pulled by a set amount does too.
 * Where friction would let the pulley run up to the yoke, it stays as far off as its tackle is long when drawn together.
 *
 * @returns null where the pulley does not come to rest
 */
export const pullsInTravel = (
  rig: LaidRig,
  held: HeldThere,
  forceN: SiteVector,
  travel: TravelCase,
): PullsInTravel | null =>
  pullsWith(rig, held, forceN, travel, 0) ?? pullsWith(rig, held, forceN, travel, rig.tether?.line.lengthMinM ?? 0);

/** @param leastM the pulley comes no nearer to the yoke than this */
function pullsWith(
  rig: LaidRig,
  { floating, found }: HeldThere,
  forceN: SiteVector,
  travel: TravelCase,
  leastM: number,
): PullsInTravel | null {
  const { rider: still, sheaves, pulled, against } = floating;
  const frictionless = { mainsN: found.mainsN, tetherN: found.tetherN, rider: still };
  const total = found.mainsN.reduce((a, b) => a + b, 0);
  if (still === null || !pulled || against !== null || rig.tether?.line.drive === "tension" || !(total > 0))
    return frictionless;
  const { yoke } = found;
  const mains = rig.mains.map((m, i) => ({
    toward: sheaves[i] ?? m.pointAt,
    share: (found.mainsN[i] ?? 0) / total,
  }));
  const tags = rig.tags.map((t, i) => ({ toward: t.handsAt, tensionN: found.tagsN[i] ?? 0 }));
  const force = addScaled(forceN, site(0, 0, -1), ropesAtYokeN(rig, yoke, floating));
  const over = (tensionN: number, efficiency: number | null, wrapRad: number): number => {
    const ratio = sheaveRatio(efficiency ?? 1, wrapRad);
    return travel === "raise" ? tensionN / ratio : tensionN * ratio;
  };
  /** How a ridden rope pulls at the pulley: toward its tip sheave, and toward its first redirect. */
  const ropePulls = (main: LaidMain, i: number, tensionN: number, rider: SiteVector) => {
    const sheave = sheaves[i] ?? main.pointAt;
    const next = main.anchors[0]?.at ?? main.pointAt;
    const back = subtract(rider, sheave);
    const before = over(tensionN, main.efficiencies[0] ?? null, angleBetween(subtract(sheave, yoke), back));
    const after = over(before, rig.tether?.efficiency ?? null, angleBetween(back, subtract(next, rider)));
    return [
      { toward: sheave, tensionN: before },
      { toward: next, tensionN: after },
    ];
  };
  const clear = (at: SiteVector): SiteVector => {
    const away = subtract(at, yoke);
    return norm(away) < leastM ? addScaled(yoke, unit(away), leastM) : at;
  };
  let now: PullsInTravel & { readonly rider: SiteVector } = { ...frictionless, rider: still };
  let pace = 1;
  let last: SiteVector | null = null;
  for (let round = 0; round < ROUNDS; round++) {
    const { mainsN, tetherN, rider } = now;
    const ropes = rig.mains.flatMap((m, i) => (isRidden(rig, m) ? ropePulls(m, i, mainsN[i] ?? 0, rider) : []));
    const step = subtract(clear(rideRopes([...ropes, { toward: yoke, tensionN: tetherN }], rider).at), rider);
    if (norm(step) < RESTS_M) return now;
    pace = paced(pace, last, step);
    last = step;
    const next = clear(addScaled(rider, step, pace));
    const pulls = pullsToHold(yoke, mains, [...tags, { toward: next, tensionN: null }], force);
    now = {
      mainsN: mains.map((m) => pulls.mainN * m.share),
      tetherN: pulls.handsN[tags.length] ?? 0,
      rider: next,
    };
  }
  return null;
}
