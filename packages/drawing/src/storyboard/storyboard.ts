import {
  type Evolution,
  evaluate,
  momentPlan,
  type Plan,
  type StageResult,
  type Status,
  stageWay,
  type UnitSystem,
  type When,
  writePhrase,
} from "@gantline/plan";
import { drawPlan } from "../plan-view.ts";
import type { Bounds, Drawing } from "../primitives.ts";
import { sectionFrame } from "../section/section-frame.ts";
import { drawSection } from "../section.ts";
import { percentAlong } from "../shared/moment-text.ts";
import { stageFault } from "../shared/stage-fault.ts";
import { statusWords } from "../shared/status-sign.ts";
import { stageFacts } from "./stage-facts.ts";

/** One stage of the storyboard. */
export interface StoryboardFrame {
  readonly stageId: string;
  /** From 1. */
  readonly number: number;
  readonly title: string;
  /** The section (or, for a way across it, the plan) at the stage's worst moment. Set it with `FRAME_WORDS` as `leastPriority`. */
  readonly drawing: Drawing;
  readonly status: Status;
  /** "Sideways pull on the tip: close, 93 %, at 62 % along", or what is wrong with the stage. */
  readonly worstText: string;
  /** Its critical numbers, a line each. */
  readonly facts: readonly string[];
  readonly when: When;
}

/** A `leastPriority` for frames: the few words that a small drawing can carry. */
export const FRAME_WORDS = 85;

/**
 * The evolution as small sections, one a stage at its worst moment, all to one scale (a stage across the section: from above), each with its critical numbers.
 * A stage that cannot be carried out as written says so instead of its worst check.
 */
export function storyboard(
  plan: Plan,
  evolution: Evolution,
  { system }: { readonly system: UnitSystem },
): readonly StoryboardFrame[] {
  const frames = evolution.stages.map((result, index): StoryboardFrame => {
    const { when, status } = result.worst;
    const then = momentPlan(plan, when);
    return {
      stageId: result.stage.id,
      number: index + 1,
      title: result.stage.name,
      drawing: withShortWords(
        viewOf(then, index)(then, evaluate(then), {
          system,
          evolution: when,
          measures: result.stage.action === "moveLadder",
        }),
      ),
      status: status === "over" ? "over" : (stageFault(evolution, index) ?? status),
      worstText: worstText(evolution, result, system),
      facts: stageFacts(plan, evolution, result, system),
      when,
    };
  });
  const bounds = { section: boundsOfAll(frames, "section"), plan: boundsOfAll(frames, "plan") };
  return frames.map((f) => ({ ...f, drawing: { ...f.drawing, bounds: bounds[f.drawing.id] ?? f.drawing.bounds } }));
}

/** A text longer than this has no room in a frame; what it says is said under it. */
const MOST_LETTERS = 26;

const withShortWords = (drawing: Drawing): Drawing => ({
  ...drawing,
  primitives: drawing.primitives.filter((p) => p.kind !== "text" || p.text.length <= MOST_LETTERS),
});

/** The section; from above where the stage takes the load across the section more than along and up it. */
function viewOf(plan: Plan, stage: number): typeof drawSection {
  const frame = sectionFrame(plan);
  const way = stageWay(plan, stage);
  let across = 0;
  let within = 0;
  for (const [i, p] of way.slice(1).entries()) {
    const [a, b] = [frame.toSection(way[i] ?? p), frame.toSection(p)];
    across += Math.abs(frame.before(p) - frame.before(way[i] ?? p));
    within += Math.hypot(b[0] - a[0], b[1] - a[1]);
  }
  return across > within ? drawPlan : drawSection;
}

const boundsOfAll = (frames: readonly StoryboardFrame[], id: Drawing["id"]): Bounds | null =>
  frames.flatMap((f) => (f.drawing.id === id ? [f.drawing.bounds] : [])).reduce<Bounds | null>(around, null);

function worstText(evolution: Evolution, result: StageResult, system: UnitSystem): string {
  const { worst, problems } = result;
  const [problem] = problems;
  if (problem) return writePhrase(problem.says, system);
  const check = evolution.ledger.find((c) => c.id === worst.checkId);
  return check ? `${check.subject}: ${statusWords(worst)}, ${whenText(evolution, result)}` : "No check could be made";
}

/** Ratios nearer to each other than this are the same. */
const SAME_RATIO = 1e-6;

/** "62 % along", or "throughout" where one check is as bad all along. */
function whenText(evolution: Evolution, { worst, moments: [first, last] }: StageResult): string {
  const same = evolution.moments
    .slice(first, last + 1)
    .every(
      (m) => m.worst.checkId === worst.checkId && Math.abs((m.worst.ratio ?? 0) - (worst.ratio ?? 0)) <= SAME_RATIO,
    );
  return same ? "throughout" : percentAlong(worst.when);
}

const around = (a: Bounds | null, b: Bounds): Bounds =>
  a === null
    ? b
    : {
        minX: Math.min(a.minX, b.minX),
        minY: Math.min(a.minY, b.minY),
        maxX: Math.max(a.maxX, b.maxX),
        maxY: Math.max(a.maxY, b.maxY),
      };
