import {
  CAUTION,
  type Check,
  type Evaluation,
  exampleLine,
  type Phrase,
  type Plan,
  type Status,
  type UnitSystem,
  writeAmount,
  writePhrase,
  writeRatio,
} from "@gantline/plan";
import { oneLine } from "./one-line.ts";

interface LedgerOptions {
  readonly system: UnitSystem;
  readonly why: boolean;
}

const STATUSES: readonly Status[] = ["over", "unknown", "close", "within"];

/** A subject longer than this pushes its own row, not the table. */
const WIDEST_SUBJECT = 46;

/** The ledger as a table to read: head, the checks that count, and those that stand beside them. */
export function printLedger(plan: Plan, evaluation: Evaluation, options: LedgerOptions): string {
  const counting = evaluation.ledger.filter((c) => c.counts);
  const beside = evaluation.ledger.filter((c) => !c.counts);
  const width = Math.min(WIDEST_SUBJECT, Math.max(0, ...evaluation.ledger.map((c) => widthOf(oneLine(c.subject)))));
  const rows = (checks: readonly Check[]): readonly string[] => checks.flatMap((c) => rowsOf(c, width, options));
  const lines = [
    ...headOf(plan, evaluation, counting, options.system),
    "",
    ...rows(counting),
    ...(beside.length > 0 ? ["", "Shown beside, does not decide:", ...rows(beside)] : []),
  ];
  return `${lines.join("\n")}\n`;
}

function headOf(
  plan: Plan,
  { holding, problems }: Evaluation,
  counting: readonly Check[],
  system: UnitSystem,
): readonly string[] {
  const example = exampleLine(plan);
  const tally = STATUSES.map((status) => `${counting.filter((c) => c.status === status).length} ${status}`).join(", ");
  return [
    oneLine(plan.name),
    ...(example === null ? [] : [example]),
    CAUTION,
    `Checks: ${tally}.`,
    ...(holding.state === "held" ? [] : [oneLine(writePhrase(holding.says, system))]),
    ...(problems.length > 0 ? [`Entries that are wrong: ${problems.length}; see "unknown" below.`] : []),
  ];
}

function rowsOf(check: Check, width: number, { system, why }: LedgerOptions): readonly string[] {
  const ratio = writeRatio(check.ratio);
  const row =
    `${check.status.padEnd(8)}${ratio.padStart(12)}  ${padded(oneLine(check.subject), width)}  ${sentence(check.says, system)}`.trimEnd();
  return why ? [row, ...workingOf(check, system).map((line) => `${" ".repeat(22)}${line}`.trimEnd())] : [row];
}

function workingOf({ question, working }: Check, system: UnitSystem): readonly string[] {
  const terms = working.terms.map(({ symbol, meaning, value, quantity, source }) => {
    const written = writeAmount(value === null ? null : { value, quantity }, system);
    return `${oneLine(symbol)} = ${written}: ${oneLine(meaning)}${source ? ` (${oneLine(source)})` : ""}`;
  });
  return [oneLine(question), oneLine(working.formula), ...terms, `Limit from: ${oneLine(working.limitSource)}`, ""];
}

const sentence = (says: Phrase, system: UnitSystem): string => oneLine(writePhrase(says, system));

const widthOf = (text: string): number => [...text].length;
const padded = (text: string, width: number): string => text + " ".repeat(Math.max(0, width - widthOf(text)));
