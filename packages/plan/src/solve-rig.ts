import {
  add,
  asSite,
  beamLoadAt,
  deflectedAerial,
  distance,
  heightOverGround,
  type PosedAerial,
  type SagLoad,
  type SiteVector,
  site,
  tipSag,
  ZERO,
} from "@gantline/engine";
import { placeLoad } from "./place-geometry.ts";
import type { StandingZ } from "./rig/ground-below.ts";
import { hangByLength } from "./rig/hang-by-length.ts";
import { holdByPosition } from "./rig/hold-by-position.ts";
import { type LaidRig, layLines } from "./rig/lay-lines.ts";
import { type RigOutcome, type RigState, sheaveOf } from "./rig/rig-state.ts";
import { sheavePull } from "./rig/sheave-pull.ts";
import type { LoadSum } from "./rig/sum-load.ts";
import type { Plan } from "./schema/plan.ts";
import { siteGround } from "./site-ground.ts";

/** The tip has settled when it moves less than this from one round to the next, m. */
const SETTLED_M = 1e-6;
const ROUNDS = 20;

export interface Solved {
  readonly posed: PosedAerial;
  readonly laid: LaidRig;
  readonly outcome: RigOutcome;
  /** How far the tip sinks square to the ladder, m; null: not asked for, or not known. */
  readonly sagM: number | null;
  /** Why the sag that was asked for could not be had. */
  readonly sagUnknown: string | null;
}

/**
 * Balance of the load on the ladder as posed, or, where sag is asked for and known, on the ladder as it sinks under it.
 *
 * @param known the lines as they are laid on the ladder as posed, where that is known
 * @param withinM how closely sheaves on slings and a riding pulley settle, m; as closely as a ledger asks unless said
 */
export function solveRig(
  plan: Plan,
  straight: PosedAerial,
  sum: LoadSum,
  known: LaidRig | null = null,
  withinM?: number,
): Solved {
  const { device, useSag } = plan.aerial;
  let posed = straight;
  let laid = known ?? layLines(plan, posed);
  let outcome = balance(plan, laid, sum, withinM);
  if (!useSag) return { posed, laid, outcome, sagM: null, sagUnknown: null };
  let sagM = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const sag = tipSag(device, straight, outcome.ok ? sagLoads(straight, outcome.state) : []);
    if (!sag.ok) return { posed, laid, outcome, sagM: null, sagUnknown: sag.hint };
    const moved = Math.abs(sag.tipDeflectionM - sagM);
    sagM = sag.tipDeflectionM;
    posed = deflectedAerial(straight, sagM);
    laid = layLines(plan, posed);
    outcome = balance(plan, laid, sum, withinM);
    if (moved < SETTLED_M) break;
  }
  return { posed, laid, outcome, sagM, sagUnknown: null };
}

function balance(plan: Plan, laid: LaidRig, sum: LoadSum, withinM?: number): RigOutcome {
  const lacking = laid.missing[0];
  if (lacking) return { ok: false, code: "unknown", where: lacking.where, says: `${lacking.where} ${lacking.says}.` };
  if (sum.weightN === null || sum.massKg === null) {
    const who =
      sum.unweighed.length > 0
        ? `the mass of ${sum.unweighed.join(" and ")} is not known`
        : "nothing with a mass is on the ropes";
    return { ok: false, code: "unknown", where: "load", says: `No force can be worked out: ${who}.` };
  }
  const hands = [...plan.rig.taglines, ...(plan.rig.tether ? [plan.rig.tether] : [])];
  const untold = hands.find((t) => t.drive === "tension" && t.tensionN === null);
  if (untold) {
    return {
      ok: false,
      code: "unknown",
      where: untold.name,
      says: `No force can be worked out: the pull on ${untold.name} is not given.`,
    };
  }
  const wanted = asSite(plan.rig.load.positionM);
  const push = sum.windN ?? ZERO;
  const force: SiteVector = add(site(0, 0, -sum.weightN), push);
  const standingZ: StandingZ = (yoke) =>
    yoke[2] - heightOverGround(placeLoad(plan, yoke).box, siteGround(plan.scene)).heightM;
  return plan.rig.load.drive === "position"
    ? holdByPosition(laid, wanted, force, standingZ, withinM)
    : hangByLength(laid, wanted, sum.massKg, push, plan.rig.load.motion, standingZ);
}

/** What the ropes put on the beam, and how the returning ropes follow the tip as it sinks. Frictionless tensions. */
function sagLoads(posed: PosedAerial, state: RigState): SagLoad[] {
  return state.mains.map((m) => {
    const still = m.tensionsN.raise[0] ?? 0;
    const even = m.nodes.map(() => still);
    const base = m.laid.anchors[0]?.at ?? sheaveOf(m);
    return {
      ...beamLoadAt(posed, m.laid.point, sheavePull(m.nodes, even, 1)),
      ropesBack: [{ tensionN: still, lengthM: distance(base, sheaveOf(m)) }],
    };
  });
}
