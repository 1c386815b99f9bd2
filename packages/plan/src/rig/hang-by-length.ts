import { type Network, type NetworkLine, type SiteVector, site, solveNetwork } from "@gantline/engine";
import { alignSheaves } from "./align-sheaves.ts";
import type { LaidRig } from "./lay-lines.ts";
import type { RigOutcome } from "./rig-state.ts";
import { mainPoints, tensionsAlong } from "./tensions-along.ts";

type Failed = Extract<RigOutcome, { ok: false }>;

/**
 * Where does the load hang with the ropes as measured, and what does each carry?
 *
 * Main lines by unstretched length and stiffness, taglines by length or by pull, through the rope network solver.
 * The place is found without sheave friction; the tensions beyond the tip are then given for raising and lowering.
 */
export function hangByLength(rig: LaidRig, start: SiteVector, massKg: number, pushN: SiteVector): RigOutcome {
  const lacking = lackingLength(rig);
  if (lacking) return lacking;
  let failed: Failed | null = null;
  const aligned = alignSheaves(rig.mains, start, (sheaves) => {
    const solution = solveNetwork(networkOf(rig, sheaves, start, massKg, pushN));
    if (!solution.ok) {
      failed = { ok: false, code: solution.code, where: solution.where, says: solution.hint };
      return null;
    }
    const yoke = solution.nodes.load?.position;
    return yoke ? { yoke: site(...yoke), solution } : null;
  });
  if (aligned === null)
    return (
      failed ?? {
        ok: false,
        code: "not-converged",
        where: "load",
        says: "No balance was found with these rope lengths.",
      }
    );
  const { sheaves, found } = aligned;
  const tensionOf = (name: string): number => found.solution.lines[name]?.tensionsN[0] ?? 0;
  return {
    ok: true,
    state: {
      yoke: found.yoke,
      residualN: found.solution.residualN,
      mains: rig.mains.map((laid, i) => {
        const sheaveAt = sheaves[i] ?? laid.pointAt;
        const points = mainPoints(laid, found.yoke, sheaveAt);
        const atLoadN = tensionOf(`main.${laid.line.id}`);
        return {
          laid,
          sheaveAt,
          tensionsN: {
            raise: tensionsAlong(laid, points, atLoadN, "raise"),
            lower: tensionsAlong(laid, points, atLoadN, "lower"),
          },
        };
      }),
      tags: rig.tags.map((laid) => ({ laid, tensionN: tensionOf(`tag.${laid.line.id}`) })),
    },
  };
}

/** The rig as a rope network; sheaves where they are, the load free. */
function networkOf(
  rig: LaidRig,
  sheaves: readonly SiteVector[],
  start: SiteVector,
  massKg: number,
  pushN: SiteVector,
): Network {
  const nodes: Record<string, Network["nodes"][string]> = {
    load: { position: start, free: true, massKg, forceN: pushN },
  };
  const lines: Record<string, NetworkLine> = {};
  for (const [i, main] of rig.mains.entries()) {
    const names = ["tip", ...main.anchors.map((a) => a.id)].map((n) => `${main.line.id}.${n}`);
    for (const [k, name] of names.entries())
      nodes[name] = { position: k === 0 ? (sheaves[i] ?? main.pointAt) : (main.anchors[k - 1]?.at ?? main.pointAt) };
    lines[`main.${main.line.id}`] = {
      through: ["load", ...names],
      lengthM: main.line.lengthM ?? 0,
      axialStiffnessN: main.rope?.staticStiffnessN ?? 0,
      travel: "none",
    };
  }
  for (const tag of rig.tags) {
    nodes[`hands.${tag.line.id}`] = { position: tag.handsAt };
    const held =
      tag.line.drive === "length"
        ? { lengthM: tag.line.lengthM ?? 0, axialStiffnessN: tag.rope?.staticStiffnessN ?? 0 }
        : { tensionN: tag.line.tensionN ?? 0 };
    lines[`tag.${tag.line.id}`] = { through: ["load", `hands.${tag.line.id}`], ...held };
  }
  return { nodes, lines };
}

/** The first rope whose length or stiffness is not known, as an outcome. */
function lackingLength(rig: LaidRig): Failed | null {
  const ropes = [
    ...rig.mains.map((m) => ({
      name: m.line.name,
      length: m.line.lengthM,
      stiffness: m.rope?.staticStiffnessN ?? null,
    })),
    ...rig.tags
      .filter((t) => t.line.drive === "length")
      .map((t) => ({ name: t.line.name, length: t.line.lengthM, stiffness: t.rope?.staticStiffnessN ?? null })),
  ];
  for (const rope of ropes) {
    if (rope.length === null)
      return {
        ok: false,
        code: "unknown",
        where: rope.name,
        says: "The drive is by length, and this rope's length is not given.",
      };
    if (rope.stiffness === null)
      return {
        ok: false,
        code: "unknown",
        where: rope.name,
        says: "The drive is by length, and this rope's stiffness is not known.",
      };
  }
  return null;
}
