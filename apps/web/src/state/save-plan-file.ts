import { type Plan, writePlanText } from "@gantline/plan";
import { saveText } from "./save-text.ts";

/** Hands the plan to the user as a file, `name.gantline.json`. */
export const savePlanFile = (plan: Plan): void =>
  saveText(writePlanText(plan), `${fileName(plan.name)}.gantline.json`, "application/json");

/** A name that every file system takes. */
export function fileName(name: string): string {
  const kept = name
    .normalize("NFC")
    .replace(/[^\p{L}\p{N} ._-]+/gu, " ")
    .replace(/\s+/g, " ")
    .replace(/^[. ]+|[. ]+$/g, "");
  return kept.slice(0, 80) || "plan";
}
