import * as z from "zod/mini";
import { pose } from "./aerial.ts";
import { fraction, id, maybeNotNegative, maybePositive, name, sitePoint, text } from "./common.ts";

/** How one line is used in a stage. A line not named is used as the rig has it. */
export const lineUse = z.strictObject({
  /** False: rigged but not on the load, or not rigged yet. */
  on: z.boolean(),
  /**
   * Main lines always carry by their shares; for taglines and the tether: as needed to hold the path, by pull, or made
   * fast. While the ladder moves, for all lines: as needed (or a pull of 0) gives and takes rope.
   */
  drive: z.enum(["asNeeded", "tension", "length"]),
  tensionN: maybeNotNegative,
  lengthM: maybePositive,
});

/** One step of the evolution, from where the stage before ended. */
export const stage = z.strictObject({
  id,
  name,
  action: z.enum(["raise", "lower", "hold", "move", "package", "moveLadder", "rig"]),
  /** Places the yoke goes through, the last being where it ends; empty: it stays. */
  path: z.array(sitePoint).check(z.maxLength(30)),
  /** Ids of the load parts that are on the load. */
  aboard: z.array(id).check(z.maxLength(30)),
  /** Which way the main lines run; at rest: not at all, or both ways in turn. Friction is judged both ways in any case. */
  motion: z.enum(["raise", "lower", "rest"]),
  /** Shares by main line, where they are not those of the rig. */
  shares: z.record(z.string(), fraction),
  /** By line id: taglines, tether and main lines. */
  lines: z.record(z.string(), lineUse),
  /** Where the ladder is posed at the end; only for `moveLadder`. */
  pose: z.nullable(pose),
  notes: text,
});

/** From ground to ground. With no stages the plan is the one position its rig names. */
export const evolution = z.strictObject({
  /** Where the yoke is before the first stage. */
  startM: sitePoint,
  stages: z.array(stage).check(z.maxLength(40)),
});

export type LineUse = z.infer<typeof lineUse>;
export type Stage = z.infer<typeof stage>;
export type StageAction = Stage["action"];
export type EvolutionPlan = z.infer<typeof evolution>;
