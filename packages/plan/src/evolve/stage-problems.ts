import { asSite, bearingOf, distance, pointInSolid, subtract } from "@gantline/engine";
import { PERSON_KINDS } from "../rig/sum-load.ts";
import type { Plan } from "../schema/plan.ts";
import { IN_GROUND_M } from "../site-ground.ts";
import type { Situation } from "../situation.ts";
import type { Phrase } from "../units/quantity.ts";
import type { StageProblem, When } from "./evolution-types.ts";

/** What is wrong with a stage as it is written, before anything is solved. */
export function writtenProblems(
  plan: Plan,
  stageIndex: number,
  structures: Situation["geometry"]["structures"],
): readonly StageProblem[] {
  const stage = plan.evolution.stages[stageIndex];
  if (!stage) return [];
  const field = `evolution.stages[${stageIndex}]`;
  const found: StageProblem[] = [];
  const add = (at: string, ...says: Phrase): void => {
    found.push({ stage: stageIndex, says, field: `${field}.${at}` });
  };
  for (const [k, point] of stage.path.entries()) {
    const inside = structures.find((s) => s.solids.some((solid) => pointInSolid(solid, asSite(point))));
    if (inside) add(`path[${k}]`, `Way point ${k + 1} lies inside "${inside.name}".`);
  }
  const parts = new Map(plan.rig.load.parts.map((p) => [p.id, p]));
  for (const id of stage.aboard) {
    const part = parts.get(id);
    if (!part) add("aboard", `"${id}" is aboard, but no part of the load has this id.`);
    else if (part.massKg === null)
      add("aboard", `The mass of ${part.name} is not known: no force can be worked out in this stage.`);
  }
  const lines = new Map(
    [...plan.rig.mainLines, ...plan.rig.taglines, ...(plan.rig.tether ? [plan.rig.tether] : [])].map((l) => [
      l.id,
      l.name,
    ]),
  );
  for (const id of [...Object.keys(stage.lines), ...Object.keys(stage.shares)])
    if (!lines.has(id)) add("lines", `Line "${id}" is used in this stage but is not rigged.`);
  const mainsOn = plan.rig.mainLines.filter((l) => stage.lines[l.id]?.on !== false);
  if (stage.aboard.length > 0 && mainsOn.length === 0 && stage.action !== "moveLadder")
    add("lines", "There is a load, but no main line is on it.");
  if (stage.action === "moveLadder") {
    if (stage.pose === null) add("pose", "The ladder is to move, but not said where to.");
    const people = stage.aboard.filter((id) => PERSON_KINDS.has(parts.get(id)?.kind ?? ""));
    if (people.length > 0)
      add("aboard", "A person is on the ropes while the ladder moves. Nobody is on rope while the ladder can move.");
    else if (stage.aboard.length > 0)
      add("aboard", "There is a load on the ropes while the ladder moves. The ladder moves empty.");
    for (const [id, use] of Object.entries(stage.lines))
      if (use.on)
        add(
          "lines",
          `${lines.get(id) ?? id} is made fast while the ladder moves: it would be pulled tight or fall slack. Let it run free.`,
        );
  } else if (stage.pose !== null) add("pose", "Only a stage that moves the ladder may change its pose.");
  return found;
}

/** Of the load's weight: a pull smaller than this is nothing to ask for. */
const NEAR_M = 0.01;

const OF_LOAD: ReadonlySet<string> = new Set(["load", "loadToLadder", "loadToVehicle"]);

/** What a moment shows to be wrong: nothing holds the load on its way, or it goes through something. */
export function momentProblem(situation: Situation, when: When): StageProblem | null {
  const { holding, load, clearances, loadHeight } = situation;
  const field = `evolution.stages[${when.stage}].path`;
  const at: Phrase = [{ value: Math.round(when.along * 100), quantity: "count" }, " % along: "];
  // What is not known is told by the stage as written and by the checks that need it.
  if (holding.state === "unsolved" && holding.code === "unknown") return null;
  if (holding.state === "unsolved") return { stage: when.stage, says: [...at, ...holding.says], field };
  if (holding.state === "drifts") {
    const toward = subtract(load.wanted, load.yoke);
    const missing: Phrase =
      Math.hypot(toward[0], toward[1]) > NEAR_M
        ? [" Missing: a pull toward bearing ", { value: bearingOf(toward), quantity: "angle" }, "."]
        : [];
    return {
      stage: when.stage,
      says: [
        ...at,
        "nothing holds the load on its way; it would go ",
        { value: distance(load.wanted, load.yoke), quantity: "length" },
        " aside.",
        ...missing,
      ],
      field,
    };
  }
  if (loadHeight.heightM < -IN_GROUND_M)
    return { stage: when.stage, says: [...at, `the load goes into ${loadHeight.over ?? "the ground"}.`], field };
  const struck = clearances.find((c) => c.touching && OF_LOAD.has(c.kind));
  return struck
    ? { stage: when.stage, says: [...at, `the load goes through the ${struck.toWhat.toLowerCase()}.`], field }
    : null;
}
