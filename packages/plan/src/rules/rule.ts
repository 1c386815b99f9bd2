import type { Finding } from "../judge.ts";
import type { Situation } from "../situation.ts";

/** One rule of judgement: what it finds in a situation. A rule that does not apply finds nothing. */
export type Rule = (situation: Situation) => readonly Finding[];
