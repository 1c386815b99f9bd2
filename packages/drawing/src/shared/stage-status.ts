import type { Evolution, Status } from "@gantline/plan";

/** How a stage stands: by its worst, in which what keeps it from being carried out as written counts. */
export const stageStatus = (evolution: Evolution, stage: number): Status =>
  evolution.stages[stage]?.worst.status ?? "unknown";
