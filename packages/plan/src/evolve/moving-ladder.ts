import { PERSON_KINDS } from "../rig/sum-load.ts";
import type { LineUse, Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import type { AddFault } from "./fault.ts";
import { linesOf, useInStage } from "./lines-in-stage.ts";

/**
 * What is wrong with a stage that moves the ladder: nobody is on rope and no rope is made fast while it moves.
 *
 * A line made fast or pulled with a steady force is over. Held as needed, by tension 0 or off the load it gives and takes
 * rope. Hands hold taglines and tether as the rig has them; the rig does not say whether a main line's brake is open, so
 * the stage must.
 */
export function movingLadderProblems(plan: Plan, stage: Stage, add: AddFault): void {
  if (stage.pose === null) add("over", "pose", ["The ladder is to move, but not said where to."]);
  const people = plan.rig.load.parts.filter((p) => stage.aboard.includes(p.id) && PERSON_KINDS.has(p.kind));
  if (people.length > 0)
    add("over", "aboard", [
      "A person is on the ropes while the ladder moves. Nobody is on rope while the ladder can move.",
    ]);
  else if (stage.aboard.length > 0)
    add("over", "aboard", ["There is a load on the ropes while the ladder moves. The ladder moves empty."]);
  for (const line of linesOf(plan)) {
    const use = "drive" in line ? useInStage(stage, line) : (stage.lines[line.id] ?? null);
    if (use === null)
      add("unknown", "lines", [
        `It is not said whether ${line.name} runs free while the ladder moves: say that it is off the load, or on it as needed.`,
      ]);
    else lineProblem(line.name, use, add);
  }
}

function lineProblem(name: string, { on, drive, tensionN }: LineUse, add: AddFault): void {
  if (!on || drive === "asNeeded" || (drive === "tension" && tensionN === 0)) return;
  if (drive === "length")
    add("over", "lines", [
      `${name} is made fast while the ladder moves: it would be pulled tight or fall slack. Let it run free.`,
    ]);
  else if (tensionN === null)
    add("unknown", "lines", [`The pull on ${name} while the ladder moves is not given. Let it run free.`]);
  else
    add("over", "lines", [
      `${name} pulls with `,
      { value: tensionN, quantity: "force" },
      " while the ladder moves. Let it run free.",
    ]);
}
