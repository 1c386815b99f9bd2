import { type Outline, parapetOutlines, type StandObstacle } from "@gantline/engine";
import { soundOutline } from "../place-geometry.ts";
import type { Plan } from "../schema/plan.ts";
import type { Structure } from "../schema/scene.ts";

/** The structures of a scene for the search: the solids of the ledger, each as an outline between two heights. */
export const standObstacles = ({ scene }: Plan): readonly StandObstacle[] =>
  scene.structures.filter((s) => soundOutline(s.outline)).flatMap((s) => [body(s), ...parapets(s)]);

const body = ({ id, name, outline, baseZM, topZM }: Structure): StandObstacle => ({
  id,
  name,
  outline,
  bottomZM: baseZM,
  topZM,
});

function parapets({ id, name, outline, topZM, parapetHeightM, parapetThicknessM }: Structure): StandObstacle[] {
  if (!(parapetHeightM > 0)) return [];
  return parapetOutlines(outline, parapetThicknessM).map((side: Outline, i) => ({
    id: `${id}/parapet-${i + 1}`,
    name: `${name}, parapet`,
    outline: side,
    bottomZM: topZM,
    topZM: topZM + parapetHeightM,
  }));
}
