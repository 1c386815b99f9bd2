import { addScaled, type HoldingMain, norm, pullsToHold, type SiteVector, site } from "@gantline/engine";
import type { LaidRig } from "./lay-lines.ts";
import { type HeldThere, letHang, ropesOfUnknownStiffness } from "./let-hang.ts";
import type { RigOutcome } from "./rig-state.ts";
import { ropesAtYokeN } from "./rope-weight.ts";
import { runMains, runTether } from "./run-mains.ts";
import { SETTLED_M, settleRig } from "./settle-rig.ts";
import { tensionsAlong } from "./tensions-along.ts";
import { pullsInTravel } from "./tether-friction.ts";

/** Of the force on the load: with less left over the wanted place is held. */
const NOTHING_LEFT = 1e-9;

const NOT_FROM_ABOVE: RigOutcome = {
  ok: false,
  code: "nothing-holds",
  where: "load",
  says: "No pull of the main lines holds the load at this height: the yoke must hang below the tip sheaves.",
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
 * is left over there, the load is let go to where the lines, at the lengths they have there, let it hang. Forces are always
 * those of the place where it really is.
 *
 * @param withinM how closely what has no fixed place settles, m
 */
export function holdByPosition(
  rig: LaidRig,
  wanted: SiteVector,
  forceN: SiteVector,
  withinM: number = SETTLED_M,
): RigOutcome {
  const total = rig.mains.reduce((sum, m) => sum + m.line.share, 0);
  if (!(total > 0))
    return { ok: false, code: "nothing-holds", where: "main lines", says: "No main line has a share of the load." };
  let below = true;
  let drawnUp = false;
  const settled = settleRig(
    rig,
    wanted,
    (floating) => {
      const { sheaves, rider } = floating;
      below = sheaves.some((s) => s[2] > wanted[2]);
      if (!below) return null;
      drawnUp ||= floating.against === "yoke";
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
        residualN: pulls.residualN,
      };
    },
    withinM,
  );
  if (settled === null) return !below ? NOT_FROM_ABOVE : drawnUp ? DRAWN_UP : NOT_SETTLED;
  const held: HeldThere | null =
    settled.found.residualN <= NOTHING_LEFT * norm(forceN) ? settled : letHang(rig, settled, forceN, withinM);
  if (held === null) return NOT_SETTLED;
  const { floating, found } = held;
  const raise = pullsInTravel(rig, held, forceN, "raise");
  const lower = pullsInTravel(rig, held, forceN, "lower");
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
      stiffTaken: held === settled ? [] : ropesOfUnknownStiffness(rig),
      ropesAtYokeN: ropesAtYokeN(rig, found.yoke, floating),
    },
  };
}

/** Taglines in order, then the tether: with a pull that is set, or whatever holds the load's place. */
function handsOf({ tags, tether }: LaidRig, rider: SiteVector | null) {
  const pullOf = ({ drive, tensionN }: { readonly drive: string; readonly tensionN: number | null }) =>
    drive === "tension" ? (tensionN ?? 0) : null;
  const hands = tags.map((t) => ({ toward: t.handsAt, tensionN: pullOf(t.line) }));
  return tether && rider ? [...hands, { toward: rider, tensionN: pullOf(tether.line) }] : hands;
}
