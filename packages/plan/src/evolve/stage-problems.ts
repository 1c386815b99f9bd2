import { pointInSolid, site } from "@gantline/engine";
import { amount } from "../judge.ts";
import type { Plan } from "../schema/plan.ts";
import { IN_GROUND_M } from "../site-ground.ts";
import type { Situation } from "../situation.ts";
import type { Phrase } from "../units/quantity.ts";
import { emptyYokeProblems } from "./empty-yoke.ts";
import type { AddFault, Fault } from "./fault.ts";
import { linesOf, mainsInStage } from "./lines-in-stage.ts";
import { stageWay, wayLengthM } from "./moment-plan.ts";
import { movingLadderProblems } from "./moving-ladder.ts";
import { setDownProblems } from "./set-down.ts";
import { actionProblems, mainDriveProblems } from "./stage-actions.ts";

/** Shares may miss 1 by this much, for rounding. */
const SHARES_WITHIN = 1e-6;

/** What is wrong with a stage as it is written, before anything is solved. */
export function writtenProblems(
  plan: Plan,
  stageIndex: number,
  structures: Situation["geometry"]["structures"],
): readonly Fault[] {
  const stage = plan.evolution.stages[stageIndex];
  if (!stage) return [];
  const found: Fault[] = [];
  const fault = (status: Fault["status"], field: string, says: Phrase, along: number | null): void => {
    const when = { stage: stageIndex, along: along ?? 0 };
    found.push({ stage: stageIndex, status, says, field, when, between: [along ?? 0, along ?? 1] });
  };
  const add: AddFault = (status, at, says, along) =>
    fault(status, `evolution.stages[${stageIndex}].${at}`, says, along ?? null);

  // What lies on a roof is not inside the house.
  const insideOf = ([x, y, z]: readonly [number, number, number]) =>
    structures.find((s) => s.solids.some((solid) => pointInSolid(solid, site(x, y, z + IN_GROUND_M))));
  const begins = stageIndex === 0 ? insideOf(plan.evolution.startM) : undefined;
  if (begins) fault("over", "evolution.startM", [`The way begins inside "${begins.name}".`], 0);
  const way = stageWay(plan, stageIndex);
  const whole = wayLengthM(way);
  for (const [k, point] of stage.path.entries()) {
    const inside = insideOf(point);
    const along = whole > 0 ? wayLengthM(way.slice(0, k + 2)) / whole : 0;
    if (inside) add("over", `path[${k}]`, [`Way point ${k + 1} lies inside "${inside.name}".`], along);
  }

  const parts = new Map(plan.rig.load.parts.map((p) => [p.id, p]));
  for (const id of stage.aboard) {
    const part = parts.get(id);
    if (!part) add("over", "aboard", [`"${id}" is aboard, but no part of the load has this id.`]);
    else if (part.massKg === null)
      add("unknown", "aboard", [`The mass of ${part.name} is not known: no force can be worked out in this stage.`]);
  }
  setDownProblems(plan, stageIndex, add);
  actionProblems(plan, stageIndex, stage, add);
  mainDriveProblems(plan, stage, add);
  emptyYokeProblems(plan, stageIndex, structures, add);

  const rigged = new Set(linesOf(plan).map((l) => l.id));
  for (const id of new Set([...Object.keys(stage.lines), ...Object.keys(stage.shares)]))
    if (!rigged.has(id)) add("over", "lines", [`Line "${id}" is used in this stage but is not rigged.`]);
  const mains = mainsInStage(plan, stage);
  const total = mains.reduce((sum, l) => sum + l.share, 0);
  if (stage.aboard.length > 0 && mains.length === 0 && stage.action !== "moveLadder")
    add("over", "lines", ["There is a load, but no main line is on it."]);
  else if (stage.aboard.length > 0 && mains.length > 0 && Math.abs(total - 1) > SHARES_WITHIN)
    add("unknown", "shares", [
      "The shares of the main lines on the load make ",
      amount(total, "ratio"),
      ", not the whole: they are worked in proportion, which may not be what is meant.",
    ]);

  if (stage.action === "moveLadder") movingLadderProblems(plan, stage, add);
  else if (stage.pose !== null) add("over", "pose", ["Only a stage that moves the ladder may change its pose."]);
  return found;
}
