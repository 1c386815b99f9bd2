import { type HeightOverGround, TOUCH_M } from "@gantline/engine";
import { amount, declare, judge } from "../judge.ts";
import { IN_GROUND_M } from "../site-ground.ts";
import type { Phrase } from "../units/quantity.ts";
import type { Rule } from "./rule.ts";

/** Is the load above the ground or on it, and the ladder off it? */
export const ground: Rule = (s) => [load(s), ladder(s)];

const SOURCE = "planning default, no source";
const nameOf = ({ over }: HeightOverGround): string => (over === null ? "the ground" : `"${over}"`);
const reading = (h: HeightOverGround): Phrase =>
  h.heightM < 0
    ? [amount(-h.heightM, "length"), ` deep in ${nameOf(h)}.`]
    : [amount(h.heightM, "length"), ` above ${nameOf(h)}.`];

function load({ plan, state, loadHeight }: Parameters<Rule>[0]) {
  const deepM = Math.max(0, -loadHeight.heightM);
  return judge(plan.policy, {
    id: "ground/load",
    rule: "ground",
    demand: amount(deepM, "length"),
    limit: state === null ? null : amount(IN_GROUND_M, "length"),
    words: () => ({
      subject: "Load over the ground",
      question: "Depth of the load in the ground against what passes for standing on it",
      reading: reading(loadHeight),
      ifOver: ["Keep it above the ground, or draw the ground as it is: a gap has a level of its own."],
      ifUnknown: [...reading(loadHeight), " So where it is wanted; not known where it would hang."],
      working: {
        formula: "depth in the ground ÷ allowance",
        terms: [
          { symbol: "height", meaning: "over the ground, least", value: loadHeight.heightM, quantity: "length" },
          { symbol: "allowance", meaning: "depth let pass", value: IN_GROUND_M, quantity: "length", source: SOURCE },
        ],
        limitSource: SOURCE,
      },
      at: loadHeight.at,
      field: "rig.load.positionM",
    }),
  });
}

function ladder({ stand: { ladderHeight } }: Parameters<Rule>[0]) {
  const rests = ladderHeight.heightM <= TOUCH_M;
  return declare(
    {
      id: "ground/ladder",
      rule: "ground",
      demand: null,
      limit: null,
      words: () => ({
        subject: "Ladder over the ground",
        question: "Is the ladder, with its platform, off the ground?",
        reading: reading(ladderHeight),
        ifOver: ["The ladder may not rest on or strike anything: raise, shorten or move it."],
        ifUnknown: [],
        working: {
          formula: "height of its underside over the ground, least",
          terms: [{ symbol: "height", meaning: "over the ground", value: ladderHeight.heightM, quantity: "length" }],
          limitSource: "the scene as drawn",
        },
        at: ladderHeight.at,
        field: "aerial.pose.elevationRad",
      }),
    },
    rests ? "over" : "within",
  );
}
