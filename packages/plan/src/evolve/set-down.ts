import { heightOverGround, type SiteVector } from "@gantline/engine";
import { insideOutline } from "../edit/surface-below.ts";
import { placeLoad } from "../place-geometry.ts";
import { PERSON_KINDS } from "../rig/sum-load.ts";
import type { Plan } from "../schema/plan.ts";
import type { LoadPart } from "../schema/rig.ts";
import { siteGround } from "../site-ground.ts";
import type { AddFault } from "./fault.ts";
import { stageStart } from "./moment-plan.ts";

/** From no higher can people and loads come onto the ropes or leave them, m. Planning default, no source. */
const STEP_OFF_M = 0.5;

/**
 * Who or what comes onto the ropes or leaves them does so standing on something, and nobody is left hanging at the end.
 *
 * What was not aboard in the stage before and is now, and the other way round, is held against what is below the load where
 * the stage begins; people who are aboard when the evolution ends, against what is below it then.
 */
export function setDownProblems(plan: Plan, stageIndex: number, add: AddFault): void {
  const { stages } = plan.evolution;
  const stage = stages[stageIndex];
  if (!stage) return;
  const before = stages[stageIndex - 1]?.aboard ?? [];
  const { parts } = plan.rig.load;
  const heightM = heightOfLoad(plan, stageStart(plan, stageIndex));
  const height = { value: heightM, quantity: "length" } as const;
  if (heightM > STEP_OFF_M) {
    const leaving = parts.filter((p) => before.includes(p.id) && !stage.aboard.includes(p.id));
    if (leaving.length > 0)
      add(
        "over",
        "aboard",
        [
          `${namesOf(leaving)}: off the ropes from here on, but the load still hangs `,
          height,
          " above what is below it. Set it down first, or keep it aboard.",
        ],
        0,
      );
    const joining = parts.filter((p) => stage.aboard.includes(p.id) && !before.includes(p.id));
    if (joining.length > 0)
      add(
        "over",
        "aboard",
        [
          `${namesOf(joining)}: on the ropes from here on, but the load hangs `,
          height,
          " above what is below it, where nobody and nothing can come aboard. Begin where it stands on something.",
        ],
        0,
      );
  }
  if (stageIndex !== stages.length - 1) return;
  const people = parts.filter((p) => stage.aboard.includes(p.id) && PERSON_KINDS.has(p.kind));
  const endsM = heightOfLoad(plan, stageStart(plan, stageIndex + 1));
  if (people.length > 0 && endsM > STEP_OFF_M)
    add(
      "over",
      "path",
      [
        `The evolution ends with ${namesOf(people)} still on the ropes, `,
        { value: endsM, quantity: "length" },
        " above what is below the load. Go on until it is set down.",
      ],
      1,
    );
}

const namesOf = (parts: readonly LoadPart[]): string => parts.map((p) => p.name).join(" and ");

/** From the underside of the load to the roof below its middle, else to the ground below it, m. */
function heightOfLoad(plan: Plan, yoke: SiteVector): number {
  const { box } = placeLoad(plan, yoke);
  const bottomZM = box.bounds.min[2];
  const tops = plan.scene.structures.flatMap((s) =>
    insideOutline(s.outline, [yoke[0], yoke[1]]) && s.topZM <= bottomZM + STEP_OFF_M ? [bottomZM - s.topZM] : [],
  );
  return Math.min(...tops, heightOverGround(box, siteGround(plan.scene)).heightM);
}
