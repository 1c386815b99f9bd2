import type { Plan } from "../schema/plan.ts";

/** Names of lines by their ids, as "Main A and Main B". */
export function lineNames({ rig }: Plan, ids: readonly string[]): string {
  const lines = [...rig.mainLines, ...rig.taglines, ...(rig.tether ? [rig.tether] : [])];
  return ids.map((id) => lines.find((l) => l.id === id)?.name ?? id).join(" and ");
}
