import type { LineUse, Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import type { MainLine, Tagline, Tether } from "../schema/rig.ts";

/** How a tagline or the tether is used in a stage: as the stage says, or as the rig has it. */
export const useInStage = (stage: Stage, line: Tagline | Tether): LineUse =>
  stage.lines[line.id] ?? { on: true, drive: line.drive, tensionN: line.tensionN, lengthM: line.lengthM };

/** The main lines that are on the load in a stage, each with its share of it as entered: a line alone carries all. */
export function mainsInStage({ rig }: Plan, stage: Stage): readonly MainLine[] {
  const on = rig.mainLines.filter((l) => stage.lines[l.id]?.on !== false);
  return on.map((l) => ({ ...l, share: stage.shares[l.id] ?? (on.length === 1 ? 1 : l.share) }));
}

/** All lines of the rig. */
export const linesOf = ({ rig }: Plan): readonly (MainLine | Tagline | Tether)[] => [
  ...rig.mainLines,
  ...rig.taglines,
  ...(rig.tether ? [rig.tether] : []),
];
