import { addScaled, type HoldingRope, hangOnRopes, type SiteVector, site } from "@gantline/engine";
import { groundForce, groundRopes } from "./ground-below.ts";
import type { ActingOnLoad, FoundThere, HeldThere } from "./held-there.ts";
import type { LaidRig } from "./lay-lines.ts";
import { beyondM, type KeptLength, type LinesLetHang } from "./lines-let-hang.ts";
import { ropesAtYokeN } from "./rope-weight.ts";
import { settleRig } from "./settle-rig.ts";

/**
 * Where does the load come to rest on these lines? The load on straight ropes, then tip sheaves and riding pulley, in turn until
 * nothing moves. null: they do not come to rest so.
 *
 * @param from where the search begins
 * @param withinM how closely what has no fixed place settles, m
 */
export const hangInTurn = (
  rig: LaidRig,
  { mains, tags, tether }: LinesLetHang,
  from: HeldThere,
  { forceN, standing }: ActingOnLoad,
  withinM: number,
): HeldThere | null =>
  settleRig(
    rig,
    from.found.yoke,
    (floating, yoke): FoundThere | null => {
      const { sheaves, rider } = floating;
      const ropes: HoldingRope[] = mains.map((kept, i) => ({
        toward: sheaves[i] ?? yoke,
        beyondM: beyondM(rig, i, floating),
        ...kept,
      }));
      const hands: { toward: SiteVector; tensionN: number }[] = [];
      /** Takes in a line in hands: what it pulls once the load hangs. */
      const take = (toward: SiteVector, does: KeptLength | number): ((tensionsN: readonly number[]) => number) => {
        if (typeof does === "number") {
          hands.push({ toward, tensionN: does });
          return () => does;
        }
        const at = ropes.push({ toward, beyondM: 0, ...does }) - 1;
        return (tensionsN) => tensionsN[at] ?? 0;
      };
      const ofTags = rig.tags.map((t, i) => take(t.handsAt, tags[i] ?? 0));
      const ofTether = rider ? take(rider, tether) : () => (typeof tether === "number" ? tether : 0);
      const onGround = ropes.length;
      for (const rope of standing ? groundRopes(standing) : []) ropes.push({ beyondM: 0, ...rope });
      const force = addScaled(forceN, site(0, 0, -1), ropesAtYokeN(rig, yoke, floating));
      const hangs = hangOnRopes(yoke, ropes, hands, force);
      if (!hangs.ok) return null;
      const { at, tensionsN, residualN } = hangs;
      return {
        yoke: at,
        mainsN: tensionsN.slice(0, mains.length),
        tagsN: ofTags.map((pull) => pull(tensionsN)),
        tetherN: ofTether(tensionsN),
        groundN: standing && groundForce(standing, at, (k) => tensionsN[onGround + k] ?? 0),
        residualN,
      };
    },
    withinM,
    from.floating,
  );
