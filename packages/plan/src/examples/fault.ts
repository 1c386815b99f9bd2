import type { Plan } from "../schema/plan.ts";
import { crossingExample } from "./crossing.ts";
import { exampleStage } from "./stage.ts";

const DEG = Math.PI / 180;

/** The crossing, with a fault left in it for a newcomer to find: the ladder is swung across with the litter on the ropes. */
export const faultExample: Plan = {
  ...crossingExample,
  name: "Example with a fault: find it",
  notes:
    "Invented scene for learning. Somebody thought of a quicker way across. What is wrong with it, and where does the ledger say so?",
  evolution: {
    ...crossingExample.evolution,
    stages: crossingExample.evolution.stages.map((stage) =>
      stage.id === "across"
        ? exampleStage("across", "Across, by swinging the ladder", "moveLadder", {
            aboard: stage.aboard,
            lines: stage.lines,
            path: stage.path,
            pose: { bearingRad: 11 * DEG, elevationRad: 70 * DEG, lengthM: 24 },
          })
        : stage,
    ),
  },
};
