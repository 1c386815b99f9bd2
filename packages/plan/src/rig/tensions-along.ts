import { angleBetween, type SiteVector, sheaveRatio, subtract } from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import type { LaidMain } from "./lay-lines.ts";

/**
 * Tension of each segment of a main line from the load's side, N.
 * Raising, the rope runs toward the brake and its tension rises over each sheave; lowering, it falls.
 * A sheave of unknown efficiency is taken as frictionless here; the ledger says that it is unknown.
 */
export function tensionsAlong(
  main: LaidMain,
  points: readonly SiteVector[],
  atLoadN: number,
  travel: TravelCase,
): readonly number[] {
  const tensions = [atLoadN];
  for (let i = 1; i < points.length - 1; i++) {
    const [before, here, after] = [points[i - 1], points[i], points[i + 1]];
    if (!before || !here || !after) continue;
    const wrap = angleBetween(subtract(here, before), subtract(after, here));
    const ratio = sheaveRatio(main.efficiencies[i - 1] ?? 1, wrap);
    const last = tensions[i - 1] ?? 0;
    tensions.push(travel === "raise" ? last / ratio : last * ratio);
  }
  return tensions;
}

/** The points a main line runs through, from the yoke. */
export const mainPoints = (main: LaidMain, yoke: SiteVector, sheave: SiteVector): readonly SiteVector[] => [
  yoke,
  sheave,
  ...main.anchors.map((a) => a.at),
];
