import * as z from "zod/mini";
import { aerial } from "./aerial.ts";
import { name, text } from "./common.ts";
import { evolution } from "./evolution.ts";
import { gear } from "./gear.ts";
import { policy } from "./policy.ts";
import { rig } from "./rig.ts";
import { scene } from "./scene.ts";

export const PLAN_FORMAT = "gantline-plan";
/** Apart from the release: it goes up when a file of the last version could no longer be read as it is. */
export const PLAN_VERSION = 4;

/** The persisted document: everything that was put in, nothing that was computed. SI, radians. */
export const planSchema = z.strictObject({
  format: z.literal(PLAN_FORMAT),
  formatVersion: z.literal(PLAN_VERSION),
  name,
  /** Invented, for learning; said wherever the plan shows. */
  example: z.boolean(),
  notes: text,
  scene,
  aerial,
  rig,
  evolution,
  gear: z.array(gear).check(z.maxLength(300)),
  policy,
});

export type Plan = z.infer<typeof planSchema>;
