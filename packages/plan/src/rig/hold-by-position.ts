import {
  add,
  addScaled,
  distance,
  type HoldingMain,
  norm,
  pullsToHold,
  type SiteVector,
  site,
  ZERO,
} from "@gantline/engine";
import { type StandingZ, standingAt } from "./ground-below.ts";
import type { ActingOnLoad, HeldThere } from "./held-there.ts";
import type { LaidRig } from "./lay-lines.ts";
import { letHang } from "./let-hang.ts";
import { ropesOfUnknownStiffness } from "./lines-let-hang.ts";
import type { RigOutcome, SetLength } from "./rig-state.ts";
import { ropesAtYokeN } from "./rope-weight.ts";
import { runMains, runTether } from "./run-mains.ts";
import { drawnTogether, madeFast, tackleAtEnd } from "./set-lengths.ts";
import { SETTLED_M, settleRig } from "./settle-rig.ts";
import { tensionsAlong } from "./tensions-along.ts";
import { pullsInTravel } from "./tether-friction.ts";

/** Of the force on the load: with less left over the wanted place is held. */
const NOTHING_LEFT = 1e-9;

const NOT_FROM_ABOVE: RigOutcome = {
  ok: false,
  code: "nothing-holds",
  where: "load",
  says: "No pull of the main lines holds the load at this height: the yoke must hang below the tip sheaves. Hauled on, it is drawn up against them.",
};

const DRAWN_UP: RigOutcome = {
  ok: false,
  code: "nothing-holds",
  where: "tether",
  says: "The tether draws its pulley along the rope to the yoke before it holds the load here: it brings the load no further in.",
};

const NOT_SETTLED: RigOutcome = {
  ok: false,
  code: "not-converged",
  where: "load",
  says: "No balance was found for the load near this place.",
};

/**
 * Which pulls hold the load where it is wanted, and where does it hang with them?
 *
 * The pulls come from the balance at the wanted place (a made-fast tagline or tether counts as needed here). Where a force
 * is left over there, or a line is made fast at a length that is given, or the tether's tackle can be no longer or no shorter,
 * the load is let go to where the lines, at the lengths they have, let it hang. Forces are always those of the place where it
 * really is, on the ground where it comes down on it.
 *
 * @param withinM how closely what has no fixed place settles, m
 */
export function holdByPosition(
  rig: LaidRig,
  wanted: SiteVector,
  forceN: SiteVector,
  standingZ: StandingZ,
  withinM: number = SETTLED_M,
): RigOutcome {
  const total = rig.mains.reduce((sum, m) => sum + m.line.share, 0);
  if (!(total > 0))
    return { ok: false, code: "nothing-holds", where: "main lines", says: "No main line has a share of the load." };
  const tethered = balanceAt(rig, wanted, forceN, withinM, true);
  if (!tethered.below) return NOT_FROM_ABOVE;
  // Where the tether pulls its pulley up to the yoke it has been drawn together as far as it goes before. With a pull that is
  // set, or one that hardly helps, there may be no balance here with it at all.
  const { drawnUp } = tethered;
  const there = tethered.there ?? balanceAt(rig, wanted, forceN, withinM, false).there;
  const free = there && hangsAt(rig, there, drawnUp, { forceN, standing: null }, withinM);
  const standing = free && free.held !== there ? standingAt(free.held.found.yoke, wanted, standingZ) : null;
  const hung = there && standing ? hangsAt(rig, there, drawnUp, { forceN, standing }, withinM) : free;
  if (!hung) return drawnUp ? DRAWN_UP : NOT_SETTLED;
  const { held, set } = hung;
  const { floating, found } = held;
  const borneN = add(forceN, found.groundN ?? ZERO);
  const raise = pullsInTravel(rig, held, borneN, "raise");
  const lower = pullsInTravel(rig, held, borneN, "lower");
  if (raise === null || lower === null) return NOT_SETTLED;
  const travels = { raise, lower };
  const tensionsN = { raise: raise.tetherN, lower: lower.tetherN };
  return {
    ok: true,
    state: {
      yoke: found.yoke,
      residualN: found.residualN,
      mains: runMains(rig, floating, found.yoke, (i, nodes, travel) => {
        const { mainsN, rider } = travels[travel];
        const there =
          rider === floating.rider || rider === null
            ? nodes
            : nodes.map((n) => (n.kind === "rider" ? { ...n, at: rider } : n));
        return tensionsAlong(there, mainsN[i] ?? 0, travel);
      }),
      tags: rig.tags.map((laid, i) => {
        const tensionN = found.tagsN[i] ?? 0;
        return { laid, tensionN, tensionsN: { raise: tensionN, lower: tensionN } };
      }),
      tether: runTether(rig, floating, {
        tensionN: Math.max(tensionsN.raise, tensionsN.lower),
        tensionsN,
        ridesAt: [raise, lower].flatMap(({ rider }) => (rider ? [rider] : [])),
      }),
      set,
      stiffTaken: held === there ? [] : ropesOfUnknownStiffness(rig, set),
      ropesAtYokeN: ropesAtYokeN(rig, found.yoke, floating),
      groundN: found.groundN,
    },
  };
}

/**
 * The balance at the wanted place; null: what has no fixed place does not come to rest.
 *
 * @param tethered false: without the tether's pull
 */
function balanceAt(rig: LaidRig, wanted: SiteVector, forceN: SiteVector, withinM: number, tethered: boolean) {
  const total = rig.mains.reduce((sum, m) => sum + m.line.share, 0);
  let below = true;
  let drawnUp = false;
  const nearestM = rig.tether?.line.lengthMinM ?? 0;
  const there: HeldThere | null = settleRig(
    rig,
    wanted,
    (floating) => {
      const { sheaves } = floating;
      const rider = tethered ? floating.rider : null;
      below = sheaves.some((s) => s[2] > wanted[2]);
      if (!below) return null;
      drawnUp ||= floating.against === "yoke" || (rider !== null && distance(rider, wanted) < nearestM);
      const mains: HoldingMain[] = rig.mains.map((m, i) => ({
        toward: sheaves[i] ?? m.pointAt,
        share: m.line.share / total,
      }));
      const force = addScaled(forceN, site(0, 0, -1), ropesAtYokeN(rig, wanted, floating));
      const pulls = pullsToHold(wanted, mains, handsOf(rig, rider), force);
      return {
        yoke: wanted,
        mainsN: mains.map((m) => pulls.mainN * m.share),
        tagsN: pulls.handsN.slice(0, rig.tags.length),
        tetherN: rider ? (pulls.handsN[rig.tags.length] ?? 0) : 0,
        groundN: null,
        residualN: pulls.residualN,
      };
    },
    withinM,
  );
  return { there, below, drawnUp: there === null && drawnUp };
}

/** Where the load hangs with the lengths that lines have; null: no balance was found. */
function hangsAt(
  rig: LaidRig,
  there: HeldThere,
  drawnUp: boolean,
  acting: ActingOnLoad,
  withinM: number,
): { readonly held: HeldThere; readonly set: readonly SetLength[] } | null {
  const fast = madeFast(rig, there);
  const isFast = fast.some((l) => l.lineId === rig.tether?.line.id);
  const set = drawnUp && rig.tether && !isFast ? [...fast, drawnTogether(rig.tether)] : fast;
  const rests = set.length === 0 && there.found.residualN <= NOTHING_LEFT * norm(acting.forceN);
  const held = rests ? there : letHang(rig, there, set, acting, withinM);
  if (held === null) return null;
  if (held === "drawnUp") return isFast || drawnUp ? null : hangsAt(rig, there, true, acting, withinM);
  const atEnd = isFast || drawnUp ? null : tackleAtEnd(rig, held, there);
  if (atEnd === null) return { held, set };
  const all = [...set, atEnd];
  const ends = letHang(rig, there, all, acting, withinM);
  return ends === null || ends === "drawnUp" ? null : { held: ends, set: all };
}

/** Taglines in order, then the tether: with a pull that is set, or whatever holds the load's place. */
function handsOf({ tags, tether }: LaidRig, rider: SiteVector | null) {
  const pullOf = ({ drive, tensionN }: { readonly drive: string; readonly tensionN: number | null }) =>
    drive === "tension" ? (tensionN ?? 0) : null;
  const hands = tags.map((t) => ({ toward: t.handsAt, tensionN: pullOf(t.line) }));
  return tether && rider ? [...hands, { toward: rider, tensionN: pullOf(tether.line) }] : hands;
}
