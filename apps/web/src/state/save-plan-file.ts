import { type Plan, writePlanText } from "@gantline/plan";

/** Hands the plan to the user as a file, `name.gantline.json`. */
export function savePlanFile(plan: Plan): void {
  const url = URL.createObjectURL(new Blob([writePlanText(plan)], { type: "application/json" }));
  const link = document.createElement("a");
  link.href = url;
  link.download = `${fileName(plan.name)}.gantline.json`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** A name that every file system takes. */
export function fileName(name: string): string {
  const kept = name
    .normalize("NFC")
    .replace(/[^\p{L}\p{N} ._-]+/gu, " ")
    .replace(/\s+/g, " ")
    .replace(/^[. ]+|[. ]+$/g, "");
  return kept.slice(0, 80) || "plan";
}
