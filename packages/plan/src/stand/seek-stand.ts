import { refineStand, STAND_PASSES, type StandCandidate, searchStands, standGrid, WHOLE_PASS } from "@gantline/engine";
import type { Plan } from "../schema/plan.ts";
import { facingAsNow } from "./as-now.ts";
import { apartFrom, descend, nearestFirst, type Placed } from "./sample-stands.ts";
import { servesAll } from "./serves-all.ts";
import { choiceOf, standCandidates } from "./stand-candidates.ts";
import { standQuestion } from "./stand-question.ts";
import { seedSpacingM, standSeeds } from "./stand-seeds.ts";
import type { AskedStand, FoundStands, StandAim, StandAsk, StandChoice, StandFit } from "./stand-types.ts";
import { sweepTelling } from "./sweep-stand.ts";
import { type Spot, standTrier } from "./try-stands.ts";
import { withStand } from "./with-stand.ts";

/** Coarser than a search that draws a map: it asks only whether there is any stand. */
export const SEEK_STEPS = { cellM: 0.5, headings: 16, tipHeights: 6 } as const;

export interface SeekOptions {
  /** Whether a stand must hold through its whole evolution, or by vehicle, ladder and rating alone. */
  readonly swept: boolean;
  /** Further places that the same stand must serve. */
  readonly others?: readonly StandAim[];
  readonly cancelled: () => boolean;
}

/** Places that the search found are tried at so many, and so many that hold at the moments that matter are swept. */
const PLACES = 24;
const SWEPT_AT_MOST = 8;
/** Where none holds, so many of those that miss by least are followed to what misses by less, with so many looks at most. */
const FOLLOWED = 2;
const MOST_LOOKS = 60;
/** From how many cells a stand between the cells is looked for. */
const STARTS = 6;

/**
 * Is there any stand for this plan? The search coarse to fine, up to the first pass that finds one; between the cells where
 * none of them will do. If it must hold through its evolution, places spread over all that the search finds are judged at
 * the moments that matter, and those that hold are swept until one does not fail. `null`: there is none, or cancelled.
 */
export function seekStand(plan: Plan, ask: StandAsk, options: SeekOptions): StandChoice | null {
  const asked = askedFor(plan, ask, options.others ?? []);
  if (asked === null) return null;
  const found = searchedFor(asked, options);
  if (found === null) return null;
  if (servesAll(found).size === 0) return betweenCells(plan, found, options);
  return options.swept
    ? sweptStand(plan, found, standSeeds(plan, found, PLACES), options)
    : (standCandidates(plan, found)[0]?.choice ?? null);
}

function askedFor(plan: Plan, ask: StandAsk, others: readonly StandAim[]): readonly AskedStand[] | null {
  const steps = { ...SEEK_STEPS, ...ask.steps };
  const asked = [ask.aim, ...others].map((aim) => standQuestion(plan, { ...ask, ...(aim ? { aim } : {}), steps }));
  const all = asked.flatMap((a) => (a.ok ? [a] : []));
  return all.length === asked.length ? all : null;
}

function searchedFor(asked: readonly AskedStand[], { swept, cancelled }: SeekOptions): readonly FoundStands[] | null {
  let found: readonly FoundStands[] = asked.map((a) => ({ asked: a, bands: [] }));
  for (const pass of swept ? [WHOLE_PASS] : STAND_PASSES) {
    const more: FoundStands[] = [];
    for (const { asked: one, bands } of found) {
      const band = searchStands(one.question, { fromRow: 0, toRow: standGrid(one.question).rows, pass, cancelled });
      if (band === null) return null;
      more.push({ asked: one, bands: [...bands, band] });
    }
    found = more;
    if (servesAll(found).size > 0) break;
  }
  return found;
}

/** Where no cell will do a place between them may: the only one in a yard hardly wider than the vehicle. */
function betweenCells(plan: Plan, found: readonly FoundStands[], options: SeekOptions): StandChoice | null {
  const [first, ...others] = found;
  if (!first || others.length > 0) return null;
  const { question } = first.asked;
  const band = searchStands(question, { fromRow: 0, toRow: standGrid(question).rows, cancelled: options.cancelled });
  const { cancelled } = options;
  const refined: StandCandidate | null = band && refineStand(question, band, "shortest", { starts: STARTS, cancelled });
  const facing = facingAsNow(plan, question, refined) ?? refined;
  if (facing === null || !options.swept) return facing && choiceOf(first.asked, facing);
  return sweptStand(plan, found, [facing], options);
}

/** The first of some stands that does not fail its evolution, or that they lead to. */
function sweptStand(
  plan: Plan,
  found: readonly FoundStands[],
  seeds: readonly Spot[],
  { cancelled }: SeekOptions,
): StandChoice | null {
  const trier = standTrier(plan, found);
  const target = found[0]?.asked.question.target;
  if (trier === null || !target) return null;
  let sweeps = 0;
  const holds = ({ choice }: Placed): boolean => {
    sweeps++;
    const { swept, overAt } = sweepTelling(withStand(plan, choice));
    trier.judge.watch(overAt);
    return swept.fit !== "fails";
  };
  const failing: Placed[] = [];
  for (const seed of seeds) {
    if (cancelled() || sweeps >= SWEPT_AT_MOST) return null;
    const placed = trier.place(seed);
    if (!placed) continue;
    if (trier.judge.figures(placed.choice) !== null && holds(placed)) return placed.choice;
    failing.push(placed);
  }
  const descent = { stepM: seedSpacingM(found, PLACES), most: MOST_LOOKS, ended: cancelled };
  for (const start of apartFrom(nearestFirst(trier, failing, cancelled)).slice(0, FOLLOWED)) {
    const end = descend(trier, start, target, descent);
    if (cancelled()) return null;
    if (end && holds(end)) return end.choice;
  }
  return null;
}

export const fitOf = (plan: Plan, choice: StandChoice): StandFit => sweepTelling(withStand(plan, choice)).swept.fit;
