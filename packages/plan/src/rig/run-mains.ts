import type { SiteVector } from "@gantline/engine";
import type { LaidMain, LaidRig } from "./lay-lines.ts";
import type { MainState, RopeNode, TetherRun } from "./rig-state.ts";
import { type Floating, isRidden } from "./settle-rig.ts";
import { tensionsAlong } from "./tensions-along.ts";

/** The main lines as they run through settled parts, with their tensions for both ways of travel. */
export function runMains(
  rig: LaidRig,
  floating: Floating,
  yoke: SiteVector,
  mainsN: readonly number[],
): readonly MainState[] {
  return rig.mains.map((laid, i) => {
    const nodes = nodesOf(rig, laid, yoke, floating.sheaves[i] ?? laid.pointAt, floating.rider);
    const atLoadN = mainsN[i] ?? 0;
    return {
      laid,
      nodes,
      tensionsN: { raise: tensionsAlong(nodes, atLoadN, "raise"), lower: tensionsAlong(nodes, atLoadN, "lower") },
    };
  });
}

/** The tether as it runs through settled parts; null where none is on the load. */
export const runTether = (rig: LaidRig, floating: Floating, tensionN: number): TetherRun | null =>
  rig.tether && floating.rider
    ? { laid: rig.tether, pulleyAt: floating.rider, tensionN, pulled: floating.pulled, against: floating.against }
    : null;

function nodesOf(
  rig: LaidRig,
  laid: LaidMain,
  yoke: SiteVector,
  sheave: SiteVector,
  rider: SiteVector | null,
): readonly RopeNode[] {
  const last = laid.anchors.length - 1;
  const nodes: RopeNode[] = [
    { id: "yoke", name: "Yoke", kind: "yoke", at: yoke, onVehicle: false, efficiency: null },
    {
      id: "tip",
      name: "Tip sheave",
      kind: "tip",
      at: sheave,
      onVehicle: true,
      efficiency: laid.efficiencies[0] ?? null,
    },
  ];
  if (rig.tether && rider && isRidden(rig, laid))
    nodes.push({
      id: "rider",
      name: `${rig.tether.line.name}, pulley`,
      kind: "rider",
      at: rider,
      onVehicle: false,
      efficiency: rig.tether.efficiency,
    });
  for (const [k, anchor] of laid.anchors.entries()) {
    nodes.push({
      id: anchor.id,
      name: anchor.name,
      kind: k === last ? "brake" : "redirect",
      at: anchor.at,
      onVehicle: anchor.onVehicle,
      efficiency: laid.efficiencies[k + 1] ?? null,
    });
  }
  return nodes;
}
