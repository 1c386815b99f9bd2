import type { HungFrom, RiggingPoint } from "@gantline/engine";
import type { Plan } from "../schema/plan.ts";

/**
 * The point of a device that the load hangs from: the middle of the rigging points the main lines use; the first of them
 * where some are on the ladder and some on the platform; `null` where the device has none of them.
 */
export function hungFrom(device: Plan["aerial"]["device"], mainLines: Plan["rig"]["mainLines"]): HungFrom | null {
  const used = mainLines.flatMap((line) => device.riggingPoints.filter((p) => p.id === line.tip.pointId));
  const points = used.filter((p) => p.on === used[0]?.on);
  const first = points[0];
  if (!first) return null;
  const mean = (of: (p: RiggingPoint) => number): number => points.reduce((sum, p) => sum + of(p), 0) / points.length;
  return {
    on: first.on,
    alongM: mean((p) => p.alongM),
    lateralM: mean((p) => p.lateralM),
    dropM: mean((p) => p.dropM),
  };
}

/** The same as a rigging point, for the engine's geometry. */
export const asRiggingPoint = (hung: HungFrom): RiggingPoint => ({
  id: "hung-from",
  name: "",
  ratingN: null,
  ratingBasis: null,
  ratingSource: "",
  structural: null,
  ...hung,
});
