import * as z from "zod/mini";
import { planSchema } from "./schema/plan.ts";

/** JSON Schema (draft 2020-12) of a plan file, from the one schema everything else uses. */
export function planJsonSchema(): Record<string, unknown> {
  return { title: "Gantline plan", ...z.toJSONSchema(planSchema) };
}
