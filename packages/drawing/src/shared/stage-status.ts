import type { Evolution, Status } from "@gantline/plan";
import { stageFault } from "./stage-fault.ts";

/** How a stage stands: by its worst check, unless it cannot be carried out as written, or that cannot be told. */
export function stageStatus(evolution: Evolution, stage: number): Status {
  const status = evolution.stages[stage]?.worst.status ?? "unknown";
  return status === "over" ? "over" : (stageFault(evolution, stage) ?? status);
}
