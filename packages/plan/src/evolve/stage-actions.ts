import type { Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import type { Phrase } from "../units/quantity.ts";
import type { AddFault } from "./fault.ts";
import { mainsInStage } from "./lines-in-stage.ts";
import { stageWay, wayLengthM } from "./moment-plan.ts";

/** A way that contradicts its action by less than this is not held against it, m. Planning default, no source. */
const AGAINST_M = 0.1;

/** Is the way of a stage one that what is done in it can have? */
export function actionProblems(plan: Plan, stageIndex: number, stage: Stage, add: AddFault): void {
  const way = stageWay(plan, stageIndex);
  const wayM = wayLengthM(way);
  const risesM = (way.at(-1)?.[2] ?? 0) - (way[0]?.[2] ?? 0);
  const says = against(stage, wayM, risesM);
  if (says !== null) add("over", "action", says);
}

function against({ action, aboard }: Stage, wayM: number, risesM: number): Phrase | null {
  const length = (value: number) => ({ value, quantity: "length" }) as const;
  const what = aboard.length > 0 ? "the load" : "the empty yoke";
  if (action === "raise" && risesM < -AGAINST_M)
    return ["Entered as raising, but its way ends ", length(-risesM), " lower than it begins."];
  if (action === "lower" && risesM > AGAINST_M)
    return ["Entered as lowering, but its way ends ", length(risesM), " higher than it begins."];
  if (wayM <= AGAINST_M) return null;
  if (action === "hold") return [`Entered as holding, but ${what} goes a way of `, length(wayM), "."];
  if (action === "package") return [`Entered as packaging, but ${what} goes a way of `, length(wayM), "."];
  if (action === "rig" && aboard.length > 0)
    return ["Entered as rigging or striking lines, but the load goes a way of ", length(wayM), "."];
  return null;
}

/** Main lines carry by their shares, as long as the load's place has them: a pull or a length entered for one is not followed. */
export function mainDriveProblems(plan: Plan, stage: Stage, add: AddFault): void {
  if (stage.aboard.length === 0 || stage.action === "moveLadder") return;
  for (const { id, name } of mainsInStage(plan, stage)) {
    const use = stage.lines[id];
    if (use === undefined || use.drive === "asNeeded") continue;
    const entered: Phrase =
      use.drive === "length"
        ? [`${name} is entered as made fast`, ...told(" at ", use.lengthM, "length")]
        : [`${name} is entered as pulled steadily`, ...told(" with ", use.tensionN, "force")];
    add("over", "lines", [
      ...entered,
      ", which is not followed: main lines carry by their shares, and are as long as the load's place has them. Enter it as needed, and change shares or way.",
    ]);
  }
}

const told = (word: string, value: number | null, quantity: "length" | "force"): Phrase =>
  value === null ? [] : [word, { value, quantity }];
