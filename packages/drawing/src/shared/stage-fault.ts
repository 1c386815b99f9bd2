import type { Evolution } from "@gantline/plan";

/** Whether a stage cannot be carried out as written (`over`), or that cannot be told (`unknown`); null: nothing is wrong with it. */
export function stageFault(evolution: Evolution, stage: number): "over" | "unknown" | null {
  const found = evolution.ledger.filter((c) => c.rule === "stage" && c.when?.stage === stage).map((c) => c.status);
  return found.includes("over") ? "over" : found.includes("unknown") ? "unknown" : null;
}
