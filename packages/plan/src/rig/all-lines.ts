import type { Plan } from "../schema/plan.ts";
import type { MainLine, Tagline, Tether } from "../schema/rig.ts";

/** Every rope of the rig: main lines, taglines, tether. */
export const allLines = ({ rig }: Plan): readonly (MainLine | Tagline | Tether)[] => [
  ...rig.mainLines,
  ...rig.taglines,
  ...(rig.tether ? [rig.tether] : []),
];
