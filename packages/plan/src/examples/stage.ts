import type { LineUse, Stage } from "../schema/evolution.ts";

/** Whatever holds the path. */
export const AS_NEEDED: LineUse = { on: true, drive: "asNeeded", tensionN: null, lengthM: null };
/** Off the load, or not rigged yet. */
export const OFF: LineUse = { on: false, drive: "asNeeded", tensionN: null, lengthM: null };

/** A stage of the examples: what is not said is nothing, or as the rig has it. */
export const exampleStage = (
  id: string,
  name: string,
  action: Stage["action"],
  rest: Partial<Omit<Stage, "id" | "name" | "action">> = {},
): Stage => ({
  id,
  name,
  action,
  path: [],
  aboard: [],
  motion: "rest",
  shares: {},
  lines: {},
  pose: null,
  notes: "",
  ...rest,
});
