import { type Evolution, evaluateAt, momentPlan, type Plan, stageWay, type UnitSystem } from "@gantline/plan";
import { drawPlan } from "../plan-view.ts";
import type { Bounds, Drawing } from "../primitives.ts";
import { sectionFrame } from "../section/section-frame.ts";
import { drawSection } from "../section.ts";
import { type FrameWords, storyboardWords } from "./storyboard-words.ts";

/** One stage of the storyboard. */
export interface StoryboardFrame extends FrameWords {
  /** The section (or, for a way across it, the plan) at the stage's worst moment, for `framePicture`. */
  readonly drawing: Drawing;
}

/** The evolution as small sections, one a stage at its worst moment, all to one scale (a stage across the section: from above), each with its critical numbers. */
export function storyboard(
  plan: Plan,
  evolution: Evolution,
  { system }: { readonly system: UnitSystem },
): readonly StoryboardFrame[] {
  const frames = storyboardWords(plan, evolution, { system }).map((words, index): StoryboardFrame => {
    const then = momentPlan(plan, words.when);
    const measures = evolution.stages[index]?.stage.action === "moveLadder";
    const draw = viewOf(then, index);
    return {
      ...words,
      drawing: withShortWords(draw(then, evaluateAt(plan, words.when), { system, evolution: words.when, measures })),
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

const around = (a: Bounds | null, b: Bounds): Bounds =>
  a === null
    ? b
    : {
        minX: Math.min(a.minX, b.minX),
        minY: Math.min(a.minY, b.minY),
        maxX: Math.max(a.maxX, b.maxX),
        maxY: Math.max(a.maxY, b.maxY),
      };
