import { type Evolution, evolve, stageMemory } from "@gantline/plan";
import { type AnsweringScope, answerAll } from "@gantline/runtime";
import type { SweepQuestion } from "./keep-evolution.ts";

const memory = stageMemory();

/** Sweeps every plan it is sent; of the stages, those that have changed since the last. */
answerAll<SweepQuestion, Evolution>(self as AnsweringScope, ({ plan }) => evolve(plan, undefined, memory));
