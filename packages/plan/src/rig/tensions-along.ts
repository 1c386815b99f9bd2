import { angleBetween, sheaveRatio, subtract } from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import type { RopeNode } from "./rig-state.ts";

/**
 * Tension of each segment of a main line from the load's side, N.
 * Raising, the rope runs toward the brake and its tension rises over each sheave; lowering, it falls.
 * A sheave of unknown efficiency is taken as frictionless here; the ledger says that it is unknown.
 */
export function tensionsAlong(nodes: readonly RopeNode[], atLoadN: number, travel: TravelCase): readonly number[] {
  const tensions = [atLoadN];
  for (let i = 1; i < nodes.length - 1; i++) {
    const [before, here, after] = [nodes[i - 1], nodes[i], nodes[i + 1]];
    if (!before || !here || !after) continue;
    const wrap = angleBetween(subtract(here.at, before.at), subtract(after.at, here.at));
    const ratio = sheaveRatio(here.efficiency ?? 1, wrap);
    const last = tensions[i - 1] ?? 0;
    tensions.push(travel === "raise" ? last / ratio : last * ratio);
  }
  return tensions;
}
