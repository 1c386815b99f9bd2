import {
  doublePendulum,
  hangingRope,
  pendulum,
  pulledRope,
  saggingRopesAtANode,
  spansOverAPulley,
  swingPull,
} from "./kinds/hanging.ts";
import { boomOnHinge, cantilever, ladderReach, ladderTip, offLineReturn, simplySupported } from "./kinds/ladders.ts";
import {
  brakeSlips,
  followedDoublePendulum,
  followedPendulum,
  followedSwing,
  impactForce,
  loadsOverASheave,
  ropeLetsGo,
} from "./kinds/letting-go.ts";
import { powerLine, slopeMeasurement, taglinePull, twoLegs, windForce } from "./kinds/plans.ts";
import {
  bracedFrame,
  handLift,
  hangingStretch,
  pulleyLoad,
  ropePath,
  ropesAtANode,
  springsAtANode,
} from "./kinds/ropes.ts";
import { capstan, leadLine, sheaveFormula, sheaveFriction, tackle } from "./kinds/sheaves.ts";
import type { Inputs, ValidationCase } from "./validation-case.ts";
import type { Way } from "./way.ts";

/** Each kind of case and how the product is asked it. Several ways must all give the same. */
const KINDS: Readonly<Record<string, (inputs: Inputs) => readonly Way[]>> = {
  "pulley-load": (inputs) => [...pulleyLoad(inputs), ...sheaveFormula(inputs)],
  "two-legs": twoLegs,
  "ropes-at-a-node": ropesAtANode,
  "springs-at-a-node": springsAtANode,
  "rope-path": ropePath,
  "hanging-stretch": hangingStretch,
  "hand-lift": handLift,
  capstan,
  "sheave-friction": sheaveFriction,
  tackle,
  "lead-line": leadLine,
  "ladder-tip": ladderTip,
  "off-line-return": offLineReturn,
  "boom-on-hinge": boomOnHinge,
  cantilever,
  "simply-supported": simplySupported,
  "ladder-reach": ladderReach,
  "wind-force": windForce,
  "tagline-pull": taglinePull,
  "power-line": powerLine,
  "slope-shot": slopeMeasurement,
  catenary: hangingRope,
  "catenary-of-tension": pulledRope,
  "sagging-ropes-at-a-node": saggingRopesAtANode,
  pendulum: (inputs) => [...pendulum(inputs), ...followedPendulum(inputs)],
  "swing-pull": (inputs) => [...swingPull(inputs), ...followedSwing(inputs)],
  "double-pendulum": (inputs) => [...doublePendulum(inputs), ...followedDoublePendulum(inputs)],
  "rope-lets-go": ropeLetsGo,
  "impact-force": impactForce,
  "brake-slips": brakeSlips,
  "spans-over-a-pulley": spansOverAPulley,
  "braced-frame": bracedFrame,
  "loads-over-a-sheave": loadsOverASheave,
};

/** What the product answers to a case, in each way it can be asked. */
export function runCase({ kind, inputs }: ValidationCase): readonly Way[] {
  const run = KINDS[kind];
  if (!run) throw new Error(`there is no kind of case "${kind}"`);
  return run(inputs);
}
