import {
  type Evolution,
  type Plan,
  type StageResult,
  type Status,
  type UnitSystem,
  type When,
  writePhrase,
} from "@gantline/plan";
import { percentAlong } from "../shared/moment-text.ts";
import { stageStatus } from "../shared/stage-status.ts";
import { statusWords } from "../shared/status-sign.ts";
import { stageFacts } from "./stage-facts.ts";

/** What the storyboard says of one stage. */
export interface FrameWords {
  readonly stageId: string;
  /** From 1. */
  readonly number: number;
  readonly title: string;
  readonly status: Status;
  /** "Sideways pull on the tip: close, 93 %, 62 % along", or what is wrong with the stage. */
  readonly worstText: string;
  /** Its critical numbers, a line each. */
  readonly facts: readonly string[];
  /** The stage's worst moment: the one its picture shows. */
  readonly when: When;
}

/**
 * The words under each picture of the storyboard, at a small part of the pictures' cost.
 * A stage that cannot be carried out as written says so instead of its worst check.
 */
export const storyboardWords = (
  plan: Plan,
  evolution: Evolution,
  { system }: { readonly system: UnitSystem },
): readonly FrameWords[] =>
  evolution.stages.map((result, index) => ({
    stageId: result.stage.id,
    number: index + 1,
    title: result.stage.name,
    status: stageStatus(evolution, index),
    worstText: worstText(evolution, result, system),
    facts: stageFacts(plan, evolution, result, system),
    when: result.worst.when,
  }));

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
