import type { Geometry } from "../evaluation.ts";
import { amount, amountOr, declare, type Finding, judgeDistance, type Question } from "../judge.ts";
import { type HeldSwing, toldOf } from "../let-outs.ts";
import type { Plan } from "../schema/plan.ts";
import { nearestOnWay, type OnWay } from "../swing-way.ts";
import type { Phrase } from "../units/quantity.ts";
import type { StageLetOut, When } from "./evolution-types.ts";

/** The swings that letting lines go would set off at one moment. */
export interface MomentSwings {
  readonly when: When;
  readonly geometry: Geometry;
  readonly swings: readonly { readonly lineId: string; readonly name: string; readonly swing: HeldSwing | null }[];
}

/** The lines that can be let go in a stage, each at its worst moment. */
export interface StageLetOuts {
  readonly found: readonly StageLetOut[];
  readonly checks: readonly { readonly check: Finding; readonly when: When }[];
}

/** A line let go at its worst moment of a stage; where one of them has no swing, that one. */
interface Worst {
  readonly lineId: string;
  readonly name: string;
  readonly at: MomentSwings;
  readonly swing: HeldSwing | null;
}

/**
 * What letting each line in hands go would do at its worst moment of a stage: where the load strikes something, the widest swing
 * that does; else where it comes nearest. The widest swings are held against what stands about first, the others only where they
 * could come nearer.
 */
export function stageLetOuts(plan: Plan, moments: readonly MomentSwings[]): StageLetOuts {
  const lines = new Map<string, Worst[]>();
  for (const at of moments)
    for (const { lineId, name, swing } of at.swings) {
      const known = lines.get(lineId) ?? [];
      lines.set(lineId, known);
      known.push({ lineId, name, at, swing });
    }
  const found: StageLetOut[] = [];
  const checks: { check: Finding; when: When }[] = [];
  for (const all of lines.values()) {
    const { lineId, name, at, swing, near } = worstOf(plan, all);
    const told = swing && { ...toldOf(lineId, name, swing, near), when: at.when };
    if (told) found.push(told);
    checks.push({ check: told ? swingCheck(plan, told) : noSwing(lineId, name), when: at.when });
  }
  return { found, checks };
}

function worstOf(plan: Plan, all: readonly Worst[]): Worst & { readonly near: OnWay | null } {
  const untold = all.find((one) => one.swing === null);
  if (untold) return { ...untold, near: null };
  const widest = [...all].sort((a, b) => (b.swing?.amplitudeM ?? 0) - (a.swing?.amplitudeM ?? 0));
  let worst = widest[0] as Worst;
  let nearest: OnWay | null = null;
  let leastM = Number.POSITIVE_INFINITY;
  for (const one of widest) {
    const near = one.swing && nearestOnWay(plan, one.at.geometry, one.swing.way, leastM);
    if (!near) continue;
    worst = one;
    nearest = near;
    leastM = near.clearanceM;
    if (leastM <= 0) break;
  }
  return { ...worst, near: nearest };
}

const about = (lineId: string) => ({ id: `let-out/${lineId}`, rule: "let-out", counts: false });

const asked = (name: string) => ({
  subject: `${name} let go`,
  question: "Distance wanted at work against the nearest that the load comes as it swings",
});

/** What is wanted at work is not asked of an accident: shown beside the ledger, not counted. How hard it meets what it strikes is judged where a line goes. */
function swingCheck(plan: Plan, one: StageLetOut): Finding {
  const { policy } = plan;
  const ofLadder = one.nearestTo === "Ladder" || one.nearestTo === "Platform";
  const wanted = ofLadder ? policy.loadToLadderClearanceM : policy.loadClearanceM;
  const strikes = one.clearanceM !== null && one.clearanceM <= 0;
  const term = (symbol: string, meaning: string, value: number | null, quantity: "length" | "force") => ({
    symbol,
    meaning,
    value,
    quantity,
  });
  const question: Question = {
    ...about(one.lineId),
    demand: amountOr(wanted.value, "length"),
    limit: amountOr(one.clearanceM, "length"),
    words: () => ({
      ...asked(one.name),
      reading: swingSays(one),
      ifOver: [strikes ? "Keep hands or a friction wrap on it." : "At work more is wanted."],
      ifUnknown: ["No least distance is set."],
      working: {
        formula: "wanted ÷ distance",
        terms: [
          { ...term("wanted", "least distance at work", wanted.value, "length"), source: wanted.source },
          term("distance", "between the nearest points, all along the swing", one.clearanceM, "length"),
          term("a", "swing, level from plumb", one.amplitudeM, "length"),
          term("h", "height lost to the lowest point", one.dropM, "length"),
          term("e", "of it rope that the tether's pulley held out", one.heldOutM, "length"),
          term("ΔT", "pull on the main lines over the weight, at the lowest point", one.extraTensionN, "force"),
        ],
        limitSource: `${wanted.source}. A simple pendulum of the middle of the load's box: no stretch, no drag, and no jerk as the rope that was held out runs straight`,
      },
      at: one.farAt,
      field: "evolution.stages",
    }),
  };
  // Where nothing stands about it keeps any distance.
  return one.clearanceM === null ? declare(question, "within") : judgeDistance(policy, strikes, question);
}

/** "Swings 2.10 m each side of plumb in 8.4 s, 1.2 × the weight on the ropes; strikes Grain store." */
export const swingSays = (one: Omit<StageLetOut, "when">): Phrase => [
  ...(one.heldOutM > LEAST_M ? ["The load drops ", amount(one.heldOutM, "length"), " and swings "] : ["Swings "]),
  amount(one.amplitudeM, "length"),
  " each side of plumb, ",
  amount(one.periodS, "time"),
  " there and back, with at most ",
  amount(one.tensionRatio, "ratio"),
  " of the weight on the ropes; ",
  ...(one.clearanceM === null
    ? ["comes near nothing."]
    : one.clearanceM > 0
      ? [amount(one.clearanceM, "length"), ` from ${one.nearestTo} at the nearest.`]
      : [`strikes ${one.nearestTo}.`]),
];

/** Less than this is not worth telling, m. */
const LEAST_M = 0.01;

const noSwing = (lineId: string, name: string): Finding =>
  declare(
    {
      ...about(lineId),
      demand: null,
      limit: null,
      words: () => ({
        ...asked(name),
        reading: [],
        ifOver: [],
        ifUnknown: [
          "Not known: without it the load would hang nowhere below the tip sheaves, or is held as high as they are; that is no pendulum.",
        ],
        working: { formula: "wanted ÷ distance", terms: [], limitSource: "a simple pendulum" },
      }),
    },
    "unknown",
  );
