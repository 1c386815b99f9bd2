import { STAND_PASSES, STAND_STATUSES, type StandBand, searchStands, standGrid } from "@gantline/engine";
import type { Plan } from "../schema/plan.ts";
import { standCandidates } from "./stand-candidates.ts";
import { standQuestion } from "./stand-question.ts";
import type { FoundStands, StandAsk, StandChoice, StandFit } from "./stand-types.ts";
import { sweepStand } from "./sweep-stand.ts";
import { withStand } from "./with-stand.ts";

/** Coarser than a search that draws a map: it asks only whether there is any stand. */
export const SEEK_STEPS = { cellM: 0.5, headings: 16, tipHeights: 6 } as const;

export interface SeekOptions {
  /** How many stands are swept to find one that does not fail; 0: the search alone decides. */
  readonly sweeps: number;
  readonly cancelled: () => boolean;
}

/**
 * Is there any stand for this plan? The search coarse to fine, up to the first pass that finds one; if asked, the best few of
 * that pass are swept, and the next pass is tried where all of them fail. `null`: there is none, or cancelled.
 */
export function seekStand(plan: Plan, ask: StandAsk, { sweeps, cancelled }: SeekOptions): FoundStands | null {
  const asked = standQuestion(plan, { ...ask, steps: { ...SEEK_STEPS, ...ask.steps } });
  if (!asked.ok) return null;
  const { rows } = standGrid(asked.question);
  const bands: StandBand[] = [];
  for (const pass of STAND_PASSES) {
    const band = searchStands(asked.question, { fromRow: 0, toRow: rows, pass, cancelled });
    if (band === null) return null;
    bands.push(band);
    if (!band.status.some((status) => STAND_STATUSES[status] === "feasible")) continue;
    const found: FoundStands = { asked, bands: [...bands] };
    if (sweeps === 0) return found;
    const picked = pickStand(plan, found, { sweeps, cancelled });
    if (cancelled()) return null;
    if (picked && picked.fit !== "fails") return found;
  }
  return null;
}

/** The first of the best few stands that does not fail when swept; the very best where all do; `null` where there is none. */
export function pickStand(
  plan: Plan,
  found: FoundStands,
  { sweeps, cancelled }: SeekOptions,
): { readonly choice: StandChoice; readonly fit: StandFit } | null {
  let first: { readonly choice: StandChoice; readonly fit: StandFit } | null = null;
  for (const { choice } of standCandidates(plan, [found], "asSearched").slice(0, sweeps)) {
    if (cancelled()) return null;
    const picked = { choice, fit: sweepStand(withStand(plan, choice)).fit };
    if (picked.fit !== "fails") return picked;
    first ??= picked;
  }
  return first;
}
