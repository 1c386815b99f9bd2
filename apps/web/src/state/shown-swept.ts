import { type SweptStage, sweptStages } from "@gantline/drawing";
import type { Evolution } from "@gantline/plan";
import type { Desk } from "./desk.ts";

const NONE: readonly SweptStage[] = [];
const known = new WeakMap<Evolution, readonly SweptStage[]>();

/**
 * The space swept by load and ropes, where it is asked for: of the stage looked at, or of all where no moment is. Worked once
 * for each sweep; left off while something is being moved, as it takes longer than a frame.
 */
export function shownSwept({ sweptShown, moveBase, evolution, when }: Desk): readonly SweptStage[] {
  if (!sweptShown || moveBase !== null || evolution?.swept == null) return NONE;
  const { swept, of } = evolution;
  const all = known.get(swept) ?? sweptStages(of, swept);
  known.set(swept, all);
  return when === null ? all : ofStage(all, when.stage);
}

const stages = new WeakMap<readonly SweptStage[], Map<number, readonly SweptStage[]>>();

/** The same list each time it is asked for, so that nothing is drawn anew for it. */
function ofStage(all: readonly SweptStage[], stage: number): readonly SweptStage[] {
  const found = stages.get(all) ?? new Map<number, readonly SweptStage[]>();
  stages.set(all, found);
  const one = found.get(stage) ?? all.filter((swept) => swept.stage === stage);
  found.set(stage, one);
  return one;
}
