import type { Gear, GearKind, GearOf } from "../schema/gear.ts";
import type { Plan } from "../schema/plan.ts";

/** The piece of gear with this id, if it is in the plan's cache and of this kind. */
export function gearOf<K extends GearKind>(plan: Plan, kind: K, id: string | null): GearOf<K> | null {
  const found = plan.gear.find((g: Gear) => g.id === id);
  return found?.kind === kind ? (found as GearOf<K>) : null;
}
