import type { StageResult, Status } from "@gantline/plan";

/** How a stage stands: by its worst check; one that cannot be carried out as written is over, where its ratios are not known unknown. */
export const stageStatus = ({ problems, worst }: StageResult): Status =>
  problems.length > 0 && worst.status !== "unknown" ? "over" : worst.status;
