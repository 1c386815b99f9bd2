import { STAND_PASSES, type StandBand, type StandPass, type StandQuestion, standGrid } from "@gantline/engine";
import { type FoundStands, type Plan, type StandAsked, standQuestion } from "@gantline/plan";
import type { WorkSpread } from "@gantline/runtime";
import type { PlanAnswer, PlanJob, PlanMatter, PlanNews } from "./plan-worker.ts";
import type { Ask } from "./stand-ask.ts";
import { type StandJob, standJobs } from "./stand-jobs.ts";
import { asksOf, foundOf, questionsOf, searchesOf, type VehicleAsked, type VehicleSearch } from "./stand-questions.ts";

/** Who does the work, and who hears of it. */
export interface MapSearchParts {
  readonly askers: WorkSpread<PlanMatter, PlanJob, PlanAnswer, PlanNews>;
  readonly searchers: WorkSpread<readonly StandQuestion[], StandJob, StandBand>;
  /** What was found so far, and which share of the places has been looked at with all that is asked, 0 to 1. */
  readonly show: (searches: readonly VehicleSearch[], looked: number) => void;
  /** Once, unless it is stopped: all that was found, or the program's own fault. */
  readonly end: (fault: string | null, found: readonly FoundStands[]) => void;
}

export interface MapSearch {
  begin(of: Plan, ask: Ask): void;
  /** Shows what has come and was not shown yet; nothing more is heard. */
  stop(): void;
}

/** Between two drawings of a map that fills, ms. */
const REDRAWN_EVERY_MS = 90;
/** How finely is looked before the rating is known. */
const FIRST_LOOK = STAND_PASSES.slice(0, 2);

/**
 * Fills the map of what is asked: at once coarsely by all that needs no rating, while what the tip carries is worked out
 * beside it; then with all that is asked, coarse to fine. The first look stays until there is a whole coarse map after it.
 */
export function mapSearch({ askers, searchers, show, end }: MapSearchParts): MapSearch {
  /** Shows what has come since it was shown last. */
  let showRest = () => {};

  const stop = () => {
    askers.cancel();
    searchers.cancel();
    showRest();
    showRest = () => {};
  };

  const fill = (
    asked: readonly VehicleAsked[],
    passes: readonly StandPass[],
    { isShown, onEnd }: { isShown: boolean; onEnd: (fault: string | null, found: readonly FoundStands[]) => void },
  ) => {
    const questions = questionsOf(asked);
    const bands: StandBand[][] = questions.map(() => []);
    const jobs = standJobs(
      questions.map(({ question }) => standGrid(question)),
      passes,
    );
    const isFirstLook = questions.some(({ question }) => question.ratingLater);
    const total = jobs.reduce((sum, { cells }) => sum + cells, 0);
    let looked = 0;
    let coarseLeft = isShown ? jobs.filter(({ pass }) => pass === passes[0]).length : 0;
    let waiting: ReturnType<typeof setTimeout> | undefined;
    let shownAtMs = Number.NEGATIVE_INFINITY;
    const draw = () => {
      clearTimeout(waiting);
      waiting = undefined;
      shownAtMs = performance.now();
      show(searchesOf(asked, foundOf(questions, bands)), isFirstLook ? 0 : total > 0 ? looked / total : 1);
    };
    showRest();
    showRest = () => waiting !== undefined && draw();
    if (!isShown) draw();
    searchers.begin({
      matter: questions.map(({ question }) => question),
      jobs,
      onAnswer: (band, job) => {
        bands[job.question]?.push(band);
        looked += job.cells;
        if (job.pass === passes[0]) coarseLeft--;
        if (coarseLeft > 0) return;
        const waitMs = shownAtMs + REDRAWN_EVERY_MS - performance.now();
        if (waitMs <= 0) draw();
        else waiting ??= setTimeout(draw, waitMs);
      },
      onEnd: (fault) => {
        draw();
        onEnd(fault, foundOf(questions, bands));
      },
    });
  };

  return {
    stop,
    begin(of, ask) {
      stop();
      const vehicles = asksOf(of, ask);
      const first = vehicles.map(({ device, asks }) => ({
        device,
        asked: asks.map((one) => standQuestion(of, { ...one, ratingLater: true })),
      }));
      fill(first, FIRST_LOOK, {
        isShown: false,
        onEnd: (fault) => {
          if (fault === null) return;
          stop();
          end(fault, []);
        },
      });
      const jobs = vehicles.flatMap(({ asks }) => asks.map((one) => ({ kind: "ask", ask: one }) as const));
      const answers = new Map<PlanJob, StandAsked>();
      askers.begin({
        matter: { plan: of, found: [] },
        jobs,
        onAnswer: (answer, job) => {
          if (answer.kind === "ask") answers.set(job, answer.asked);
        },
        onEnd: (fault) => {
          if (fault !== null) {
            stop();
            return end(fault, []);
          }
          const inOrder = jobs.flatMap((job) => answers.get(job) ?? []);
          const asked = vehicles.map(({ device, asks }, i) => ({
            device,
            asked: inOrder.slice(i * asks.length, (i + 1) * asks.length),
          }));
          fill(asked, STAND_PASSES, { isShown: true, onEnd: end });
        },
      });
    },
  };
}
