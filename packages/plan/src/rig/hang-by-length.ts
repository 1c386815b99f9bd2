import { asSite, type Network, type NetworkLine, type SiteVector, solveNetwork } from "@gantline/engine";
import type { LaidRig } from "./lay-lines.ts";
import type { RigOutcome } from "./rig-state.ts";
import { runMains, runTether } from "./run-mains.ts";
import { isRidden, settleRig } from "./settle-rig.ts";

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
  const settled = settleRig(rig, start, ({ sheaves, rider }) => {
    const solution = solveNetwork(networkOf(rig, sheaves, rider, start, massKg, pushN));
    if (!solution.ok) {
      failed = { ok: false, code: solution.code, where: solution.where, says: solution.hint };
      return null;
    }
    const yoke = solution.nodes.load?.position;
    const tensionOf = (name: string): number => solution.lines[name]?.tensionsN[0] ?? 0;
    if (!yoke) return null;
    return {
      yoke: asSite(yoke),
      mainsN: rig.mains.map((m) => tensionOf(`main.${m.line.id}`)),
      tagsN: rig.tags.map((t) => tensionOf(`tag.${t.line.id}`)),
      tetherN: tensionOf("tether"),
      residualN: solution.residualN,
    };
  });
  if (settled === null)
    return (
      failed ?? {
        ok: false,
        code: "not-converged",
        where: "load",
        says: "No balance was found with these rope lengths.",
      }
    );
  const { floating, found } = settled;
  return {
    ok: true,
    state: {
      yoke: found.yoke,
      residualN: found.residualN,
      mains: runMains(rig, floating, found.yoke, found.mainsN),
      tags: rig.tags.map((laid, i) => ({ laid, tensionN: found.tagsN[i] ?? 0 })),
      tether: runTether(rig, floating, found.tetherN),
    },
  };
}

/** The rig as a rope network; sheaves where they are, the load free. */
function networkOf(
  rig: LaidRig,
  sheaves: readonly SiteVector[],
  rider: SiteVector | null,
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
    const [tip = "", ...beyond] = names;
    lines[`main.${main.line.id}`] = {
      through: ["load", tip, ...(rider && isRidden(rig, main) ? ["rider"] : []), ...beyond],
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
  if (rig.tether && rider) {
    const { line, rope } = rig.tether;
    nodes.rider = { position: rider, free: true };
    lines.tether =
      line.drive === "tension"
        ? { through: ["load", "rider"], tensionN: line.tensionN ?? 0 }
        : {
            through: ["load", "rider"],
            lengthM: line.lengthM ?? 0,
            axialStiffnessN: (rope?.staticStiffnessN ?? 0) * line.parts,
          };
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
    ...(rig.tether && rig.tether.line.drive !== "tension"
      ? [
          {
            name: rig.tether.line.name,
            length: rig.tether.line.lengthM,
            stiffness: rig.tether.rope?.staticStiffnessN ?? null,
          },
        ]
      : []),
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
