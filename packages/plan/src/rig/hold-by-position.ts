import { type HoldingMain, hangAtHeight, pullsToHold, type SiteVector } from "@gantline/engine";
import { alignSheaves } from "./align-sheaves.ts";
import type { LaidRig } from "./lay-lines.ts";
import type { RigOutcome } from "./rig-state.ts";
import { mainPoints, tensionsAlong } from "./tensions-along.ts";

/**
 * Which pulls hold the load where it is wanted, and where does it hang with them?
 *
 * The pulls come from the balance at the wanted place (a made-fast tagline counts as needed here); the place from the
 * balance at the wanted height with those pulls. Where the wanted place can be held the two are one; where it cannot,
 * the second is where the load would really go. Forces are always those of the place where it really is.
 */
export function holdByPosition(rig: LaidRig, wanted: SiteVector, forceN: SiteVector): RigOutcome {
  const shares = rig.mains.map((m) => m.line.share);
  const total = shares.reduce((a, b) => a + b, 0);
  if (!(total > 0))
    return { ok: false, code: "nothing-holds", where: "main lines", says: "No main line has a share of the load." };
  const mainsAt = (sheaves: readonly SiteVector[]): HoldingMain[] =>
    rig.mains.map((m, i) => ({ toward: sheaves[i] ?? m.pointAt, share: m.line.share / total }));
  const hands = rig.tags.map((t) => ({
    toward: t.handsAt,
    tensionN: t.line.drive === "tension" ? (t.line.tensionN ?? 0) : null,
  }));
  let code: "nothing-holds" | "not-converged" = "nothing-holds";
  const aligned = alignSheaves(rig.mains, wanted, (sheaves) => {
    const mains = mainsAt(sheaves);
    const pulls = pullsToHold(wanted, mains, hands, forceN);
    const pulling = hands.map((h, i) => ({ toward: h.toward, tensionN: pulls.handsN[i] ?? 0 }));
    const hangs = hangAtHeight(wanted, mains, pulling, forceN);
    if (!hangs.ok) code = hangs.code;
    return hangs.ok ? { yoke: hangs.at, mainN: hangs.mainN, handsN: pulls.handsN, residualN: hangs.residualN } : null;
  });
  if (aligned === null) {
    const says =
      code === "nothing-holds"
        ? "No pull of the main lines holds the load at this height: the yoke must hang below the tip sheaves."
        : "No balance was found for the load at this height.";
    return { ok: false, code, where: "load", says };
  }
  const { sheaves, found } = aligned;
  return {
    ok: true,
    state: {
      yoke: found.yoke,
      residualN: found.residualN,
      mains: rig.mains.map((laid, i) => {
        const sheaveAt = sheaves[i] ?? laid.pointAt;
        const points = mainPoints(laid, found.yoke, sheaveAt);
        const atLoadN = (found.mainN * laid.line.share) / total;
        return {
          laid,
          sheaveAt,
          tensionsN: {
            raise: tensionsAlong(laid, points, atLoadN, "raise"),
            lower: tensionsAlong(laid, points, atLoadN, "lower"),
          },
        };
      }),
      tags: rig.tags.map((laid, i) => ({ laid, tensionN: found.handsN[i] ?? 0 })),
    },
  };
}
