import {
  addScaled,
  asSite,
  distance,
  type NetworkLine,
  type NetworkNode,
  type SiteVector,
  site,
  solveNetwork,
  UP,
} from "@gantline/engine";
import { groundForce, groundRopes } from "./ground-below.ts";
import type { ActingOnLoad, HeldThere } from "./held-there.ts";
import type { LaidRig } from "./lay-lines.ts";
import type { KeptLength, LinesLetHang } from "./lines-let-hang.ts";
import { ropesAtYokeN } from "./rope-weight.ts";
import { isRidden, pullsAt } from "./settle-rig.ts";

/** EA of a sling, N: so much that it does not stretch by anything that shows. */
const SLING_STIFFNESS_N = 1e9;

/** What ropes weigh at the yoke hangs on where that is, a little: it is weighed anew until that moves no further, m. */
const WEIGHED_M = 1e-6;
const ROUNDS = 20;

/**
 * Where do load, tip sheaves and riding pulley come to rest on these lines, all at once?
 *
 * A rope network without friction. Where the pulley is drawn onto a tip sheave or a redirect it stays there.
 *
 * @param from where the search begins, with the pulley somewhere
 * @returns `"drawnUp"`: the tether draws its pulley onto the yoke; null: no balance was found
 */
export function hangJointly(
  rig: LaidRig,
  does: LinesLetHang,
  from: HeldThere,
  { forceN, standing }: ActingOnLoad,
): HeldThere | "drawnUp" | null {
  let hung = from;
  let movedBefore = Number.MAX_VALUE;
  for (let round = 0; round < ROUNDS; round++) {
    const ropesN = ropesAtYokeN(rig, hung.found.yoke, hung.floating);
    const acting = { forceN: addScaled(forceN, site(0, 0, -1), ropesN), standing };
    const next = settleStopped(rig, does, hung, acting);
    if (next === null || next === "drawnUp") return next;
    const moved = distance(next.found.yoke, hung.found.yoke);
    if (moved < WEIGHED_M) return next;
    if (moved > movedBefore) return null;
    hung = next;
    movedBefore = moved;
  }
  return null;
}

/** Settled with the pulley free, or where it is stopped. @param acting with the weight of ropes */
function settleStopped(
  rig: LaidRig,
  does: LinesLetHang,
  from: HeldThere,
  acting: ActingOnLoad,
): HeldThere | "drawnUp" | null {
  const free = settle(rig, does, from, acting, "rider");
  if (free.ok) return free.held;
  if (free.meets === "load") return "drawnUp";
  if (free.meets === null) return null;
  const stopped = settle(rig, does, from, acting, free.meets);
  return stopped.ok ? stopped.held : null;
}

type Settled =
  | { readonly ok: true; readonly held: HeldThere }
  /** What the pulley is drawn onto; null: something else is wrong. */
  | { readonly ok: false; readonly meets: string | null };

/** @param pulley the node that the tether leads to: the pulley, or where it was stopped; then no rope runs over it */
function settle(
  rig: LaidRig,
  { mains, tags, tether }: LinesLetHang,
  { floating, found }: HeldThere,
  { forceN, standing }: ActingOnLoad,
  pulley: string,
): Settled {
  const nodes: Record<string, NetworkNode> = { load: { position: found.yoke, free: true, forceN } };
  if (pulley === "rider" && floating.rider) nodes.rider = { position: floating.rider, free: true };
  const lines: Record<string, NetworkLine> = { tether: line(["load", pulley], tether) };
  for (const [i, main] of rig.mains.entries()) {
    const { reachM } = main.line.tip;
    const sheave = `tip ${i}`;
    nodes[sheave] = { position: floating.sheaves[i] ?? main.pointAt, free: reachM > 0 };
    if (reachM > 0) {
      nodes[`point ${i}`] = { position: main.pointAt };
      lines[`sling ${i}`] = line([`point ${i}`, sheave], { lengthM: reachM, stiffnessN: SLING_STIFFNESS_N });
    }
    const beyond = main.anchors.map((_, k) => `redirect ${i} ${k}`);
    for (const [k, { at }] of main.anchors.entries()) nodes[beyond[k] ?? ""] = { position: at };
    const ridden = pulley === "rider" && isRidden(rig, main) ? [pulley] : [];
    lines[`main ${i}`] = line(["load", sheave, ...ridden, ...beyond], mains[i] ?? 0);
  }
  for (const [i, { handsAt }] of rig.tags.entries()) {
    nodes[`hands ${i}`] = { position: handsAt };
    lines[`tag ${i}`] = line(["load", `hands ${i}`], tags[i] ?? 0);
  }
  for (const [k, rope] of (standing ? groundRopes(standing) : []).entries()) {
    nodes[`beyond ${k}`] = { position: rope.toward };
    lines[`ground ${k}`] = line(["load", `beyond ${k}`], rope);
  }
  const answer = solveNetwork({ nodes, lines });
  if (!answer.ok) {
    const { where, other = null } = answer;
    return { ok: false, meets: where === "rider" ? other : other === "rider" ? where : null };
  }
  const at = (name: string): SiteVector => asSite(answer.nodes[name]?.position ?? nodes[name]?.position ?? found.yoke);
  const tensionN = (name: string): number => answer.lines[name]?.tensionsN[0] ?? 0;
  const mainsN = rig.mains.map((_, i) => tensionN(`main ${i}`));
  const tetherN = tensionN("tether");
  return {
    ok: true,
    held: {
      floating: {
        // Of a slack rope it hangs down.
        sheaves: rig.mains.map(({ pointAt, line: { tip } }, i) =>
          (mainsN[i] ?? 0) > 0 ? at(`tip ${i}`) : addScaled(pointAt, UP, -tip.reachM),
        ),
        rider: at(pulley),
        pulled: pullsAt(tetherN, mainsN),
        against: pulley === "rider" ? null : pulley.startsWith("tip") ? "tip" : "redirect",
      },
      found: {
        yoke: at("load"),
        mainsN,
        tagsN: rig.tags.map((_, i) => tensionN(`tag ${i}`)),
        tetherN,
        groundN: standing && groundForce(standing, at("load"), (k) => tensionN(`ground ${k}`)),
        residualN: answer.residualN,
      },
    },
  };
}

const line = (through: readonly string[], by: KeptLength | number): NetworkLine =>
  typeof by === "number" ? { through, tensionN: by } : { through, lengthM: by.lengthM, axialStiffnessN: by.stiffnessN };
