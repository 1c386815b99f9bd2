import { stageAndPercent } from "@gantline/drawing";
import {
  CAUTION,
  type Check,
  type Evaluation,
  type Evolution,
  exampleLine,
  type Phrase,
  type Plan,
  type Status,
  type UnitSystem,
  type When,
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

/**
 * The ledger as a table to read: head, the checks that count, and those that stand beside them. Of a plan with stages first that
 * of the evolution, every check at its worst moment; then that of the one position the rig names, which is no moment of it.
 */
export function printLedger(
  plan: Plan,
  evaluation: Evaluation,
  evolution: Evolution | null,
  options: LedgerOptions,
): string {
  const { holding, ledger, problems } = evaluation;
  const example = exampleLine(plan);
  const head = [oneLine(plan.name), ...(example === null ? [] : [example]), CAUTION];
  const wrong = problems.length > 0 ? [`Entries that are wrong: ${problems.length}; see "unknown" below.`] : [];
  const held = holding.state === "held" ? [] : [oneLine(writePhrase(holding.says, options.system))];
  const lines =
    evolution === null
      ? [...head, `Checks: ${tallyOf(ledger)}.`, ...held, ...wrong, "", ...tableOf(ledger, options)]
      : [
          ...head,
          `Worst of all moments of the evolution: ${tallyOf(evolution.ledger)}.`,
          ...wrong,
          "",
          ...tableOf(evolution.ledger, options),
          "",
          `Beside it the one position that the rig names, no moment of the evolution: ${tallyOf(ledger)}.`,
          ...held,
          "",
          ...tableOf(ledger, options),
        ];
  return `${lines.join("\n")}\n`;
}

/** "2 over, 0 unknown, 1 close, 90 within", of the checks that count. */
const tallyOf = (ledger: readonly Check[]): string =>
  STATUSES.map((status) => `${ledger.filter((c) => c.counts && c.status === status).length} ${status}`).join(", ");

function tableOf(ledger: readonly LedgerCheck[], options: LedgerOptions): readonly string[] {
  const width = Math.min(WIDEST_SUBJECT, Math.max(0, ...ledger.map((c) => widthOf(subjectOf(c)))));
  const rows = (counts: boolean): readonly string[] =>
    ledger.filter((c) => c.counts === counts).flatMap((c) => rowsOf(c, width, options));
  const beside = rows(false);
  return [...rows(true), ...(beside.length > 0 ? ["", "Shown beside, does not decide:", ...beside] : [])];
}

/** A check of one position, or at its worst moment. */
type LedgerCheck = Check & { readonly when?: When | null };

const subjectOf = ({ subject, when }: LedgerCheck): string =>
  `${oneLine(subject)}${when ? ` (${stageAndPercent(when)})` : ""}`;

function rowsOf(check: LedgerCheck, width: number, { system, why }: LedgerOptions): readonly string[] {
  const ratio = writeRatio(check.ratio);
  const row =
    `${check.status.padEnd(8)}${ratio.padStart(12)}  ${padded(subjectOf(check), width)}  ${sentence(check.says, system)}`.trimEnd();
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
