import { type Evolution, evolve } from "@gantline/plan";
import { type AnsweringScope, answerAll } from "@gantline/runtime";
import type { SweepQuestion } from "./keep-evolution.ts";

/** Sweeps every plan it is sent. */
answerAll<SweepQuestion, Evolution>(self as AnsweringScope, ({ plan }) => evolve(plan));
