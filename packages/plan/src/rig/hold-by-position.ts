import { type HoldingMain, hangAtHeight, pullsToHold, type SiteVector } from "@gantline/engine";
import type { LaidRig } from "./lay-lines.ts";
import type { RigOutcome } from "./rig-state.ts";
import { runMains, runTether } from "./run-mains.ts";
import { settleRig } from "./settle-rig.ts";

/**
 * Which pulls hold the load where it is wanted, and where does it hang with them?
 *
 * The pulls come from the balance at the wanted place (a made-fast tagline or tether counts as needed here); the place from the
 * balance at the wanted height with those pulls. Where the wanted place can be held the two are one; where it cannot,
 * the second is where the load would really go. Forces are always those of the place where it really is.
 */
export function holdByPosition(rig: LaidRig, wanted: SiteVector, forceN: SiteVector): RigOutcome {
  const shares = rig.mains.map((m) => m.line.share);
  const total = shares.reduce((a, b) => a + b, 0);
  if (!(total > 0))
    return { ok: false, code: "nothing-holds", where: "main lines", says: "No main line has a share of the load." };
  const tetherDrive = rig.tether?.line ?? null;
  const handsAt = (rider: SiteVector | null) => [
    ...rig.tags.map((t) => ({
      toward: t.handsAt,
      tensionN: t.line.drive === "tension" ? (t.line.tensionN ?? 0) : null,
    })),
    ...(tetherDrive && rider
      ? [{ toward: rider, tensionN: tetherDrive.drive === "tension" ? (tetherDrive.tensionN ?? 0) : null }]
      : []),
  ];
  let code: "nothing-holds" | "not-converged" = "nothing-holds";
  const settled = settleRig(rig, wanted, ({ sheaves, rider }) => {
    const mains: HoldingMain[] = rig.mains.map((m, i) => ({
      toward: sheaves[i] ?? m.pointAt,
      share: m.line.share / total,
    }));
    const hands = handsAt(rider);
    const pulls = pullsToHold(wanted, mains, hands, forceN);
    const pulling = hands.map((h, i) => ({ toward: h.toward, tensionN: pulls.handsN[i] ?? 0 }));
    const hangs = hangAtHeight(wanted, mains, pulling, forceN);
    if (!hangs.ok) {
      code = hangs.code;
      return null;
    }
    const mainsN = mains.map((m) => hangs.mainN * m.share);
    const tetherN = rider ? (pulls.handsN[rig.tags.length] ?? 0) : 0;
    return { yoke: hangs.at, mainsN, tetherN, handsN: pulls.handsN, residualN: hangs.residualN };
  });
  if (settled === null) {
    const says =
      code === "nothing-holds"
        ? "No pull of the main lines holds the load at this height: the yoke must hang below the tip sheaves."
        : "No balance was found for the load at this height.";
    return { ok: false, code, where: "load", says };
  }
  const { floating, found } = settled;
  return {
    ok: true,
    state: {
      yoke: found.yoke,
      residualN: found.residualN,
      mains: runMains(rig, floating, found.yoke, found.mainsN),
      tags: rig.tags.map((laid, i) => ({ laid, tensionN: found.handsN[i] ?? 0 })),
      tether: runTether(rig, floating, found.tetherN),
    },
  };
}
