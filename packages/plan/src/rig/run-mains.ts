import type { SiteVector } from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import type { LaidMain, LaidRig } from "./lay-lines.ts";
import type { MainState, RopeNode, TetherRun } from "./rig-state.ts";
import { hangRope, type WeighedNode } from "./rope-weight.ts";
import { type Floating, isRidden } from "./settle-rig.ts";

/** The main lines as they run through settled parts, with their tensions for both ways of travel. */
export function runMains(
  rig: LaidRig,
  floating: Floating,
  yoke: SiteVector,
  tensionsOf: (main: number, nodes: readonly RopeNode[], travel: TravelCase) => readonly number[],
): readonly MainState[] {
  return rig.mains.map((laid, i) => {
    const nodes = nodesOf(rig, laid, yoke, floating.sheaves[i] ?? laid.pointAt, floating.rider);
    hangRope(rig, laid, nodes);
    return {
      laid,
      nodes,
      tensionsN: { raise: tensionsOf(i, nodes, "raise"), lower: tensionsOf(i, nodes, "lower") },
    };
  });
}

/** The tether as it runs through settled parts; null where none is on the load. */
export const runTether = (
  rig: LaidRig,
  { rider, pulled, against }: Floating,
  pull: Pick<TetherRun, "tensionN" | "tensionsN" | "ridesAt">,
): TetherRun | null => (rig.tether && rider ? { laid: rig.tether, pulleyAt: rider, ...pull, pulled, against } : null);

function nodesOf(
  rig: LaidRig,
  laid: LaidMain,
  yoke: SiteVector,
  sheave: SiteVector,
  rider: SiteVector | null,
): WeighedNode[] {
  const last = laid.anchors.length - 1;
  const nodes: WeighedNode[] = [
    { id: "yoke", name: "Yoke", kind: "yoke", at: yoke, onVehicle: false, efficiency: null, ropeN: 0 },
    {
      id: "tip",
      name: "Tip sheave",
      kind: "tip",
      at: sheave,
      onVehicle: true,
      efficiency: laid.efficiencies[0] ?? null,
      ropeN: 0,
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
      ropeN: 0,
    });
  for (const [k, anchor] of laid.anchors.entries()) {
    nodes.push({
      id: anchor.id,
      name: anchor.name,
      kind: k === last ? "brake" : "redirect",
      at: anchor.at,
      onVehicle: anchor.onVehicle,
      efficiency: laid.efficiencies[k + 1] ?? null,
      ropeN: 0,
    });
  }
  return nodes;
}
