import { hangInTurn } from "./hang-in-turn.ts";
import { hangJointly } from "./hang-jointly.ts";
import type { ActingOnLoad, HeldThere } from "./held-there.ts";
import type { LaidRig } from "./lay-lines.ts";
import { linesLetHang } from "./lines-let-hang.ts";
import type { SetLength } from "./rig-state.ts";

/**
 * Where do the lines let the load hang, that cannot hold it where it was wanted?
 *
 * @param wanted the balance at the wanted place
 * @param set lines of a length of their own
 * @param withinM how closely what has no fixed place settles, m
 * @returns `"drawnUp"`: the tether draws its pulley onto the yoke; null: no balance was found
 */
export function letHang(
  rig: LaidRig,
  wanted: HeldThere,
  set: readonly SetLength[],
  acting: ActingOnLoad,
  withinM: number,
): HeldThere | "drawnUp" | null {
  const does = linesLetHang(rig, wanted, set);
  const hung = hangInTurn(rig, does, wanted, acting, withinM);
  return hung === null && wanted.floating.rider !== null ? hangJointly(rig, does, wanted, acting) : hung;
}
