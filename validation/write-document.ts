import { runCase } from "./run-case.ts";
import {
  allowedOf,
  type CaseGroup,
  type Expected,
  type Source,
  type Tolerance,
  toleranceOf,
  type ValidationCase,
} from "./validation-case.ts";
import type { Way } from "./way.ts";

/** `docs/validation.md`: every case with what was expected and what the product answered, a table a group. The same text each time. */
export function writeDocument(groups: readonly CaseGroup[]): string {
  const cases = groups.flatMap((g) => g.cases);
  const misprints = cases.filter((c) => c.misprint !== undefined).length;
  const unmet = cases.filter((c) => c.misprint === undefined && !isMet(c)).length;
  return `${[
    "# Validation",
    "",
    "Written by `validation/generate.ts` from `validation/cases/`; not to be edited by hand.",
    "",
    "Values from outside the project that the product is held to. Each expected value is first audited by an identity of its own, " +
      "worked without the product; then the product is asked, in every way it can be. *Seen*: `read` in the text itself, `secondary` " +
      "in a page that quotes it, `memory`, or `computed` for the project's reference page from a published formula.",
    "",
    `${cases.length} cases: ${cases.length - misprints - unmet} met, ${unmet} not met, ${misprints} published values shown to be wrong.`,
    ...groups.flatMap(writeGroup),
  ].join("\n")}\n`;
}

/** Whether the product answers every expected value of a case, in every way, within tolerance. */
export function isMet(wanted: ValidationCase): boolean {
  const ways = runCase(wanted);
  return ways.length > 0 && ways.every((way) => wanted.expected.every((e) => isWithin(wanted, e, way)));
}

export function isWithin(wanted: ValidationCase, expected: Expected, { values }: Way): boolean {
  const got = values[expected.quantity];
  return got !== undefined && Math.abs(got - expected.value) <= allowedOf(wanted, expected);
}

interface Column {
  readonly head: string;
  readonly cell: (wanted: ValidationCase) => string;
}

const COLUMNS: readonly Column[] = [
  { head: "Source", cell: ({ source }) => sourceText(source) },
  { head: "Tolerance", cell: toleranceText },
  { head: "Audit", cell: ({ audit }) => audit },
];

/** What holds for most cases of a group stands once above its table; a cell says only what differs. */
function writeGroup({ title, about, cases }: CaseGroup): readonly string[] {
  const usual = new Map(COLUMNS.map((c) => [c, commonest(cases.map(c.cell))]));
  const apart = COLUMNS.filter((c) => cases.some((one) => c.cell(one) !== usual.get(c)));
  const heads = ["Case", "Expected", "Got", ...apart.map((c) => c.head)];
  return [
    "",
    `## ${title}`,
    "",
    about,
    "",
    ...COLUMNS.filter((c) => usual.get(c) !== null).flatMap((c) => [
      `${c.head}${apart.includes(c) ? ", unless said otherwise" : ""}: ${usual.get(c)?.replaceAll("<br>", "; ")}.`,
      "",
    ]),
    row(heads),
    row(heads.map(() => "---")),
    ...cases.map((one) =>
      row([
        nameText(one),
        expectedText(one),
        gotText(one),
        ...apart.map((c) => (c.cell(one) === usual.get(c) ? "" : c.cell(one))),
      ]),
    ),
    ...cases.flatMap(({ id, beyond }) => (beyond === undefined ? [] : ["", `\`${id}\`: ${beyond}`])),
  ];
}

/** The text that most of these are, if half of them or more are alike and they are not only one. */
function commonest(texts: readonly string[]): string | null {
  const most = [...new Set(texts)]
    .map((text) => [texts.filter((t) => t === text).length, text] as const)
    .sort(([a], [b]) => b - a)[0];
  return most && most[0] > 1 && most[0] * 2 >= texts.length ? most[1] : texts.length === 1 ? (texts[0] ?? null) : null;
}

const row = (cells: readonly string[]): string => `| ${cells.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`;
const nameText = ({ id, title }: ValidationCase): string => `\`${id}\` ${title}`;
const sourceText = ({ document, where, seen }: Source): string => `${document}, ${where} (${seen})`;
const lines = (texts: readonly string[]): string => texts.join("<br>");

const expectedText = (wanted: ValidationCase): string =>
  lines(wanted.expected.map((e) => `${e.quantity} ${plain(e.value)}${e.unit ? ` ${e.unit}` : ""}`));

function gotText(wanted: ValidationCase): string {
  const ways = runCase(wanted);
  const found = wanted.expected.map((e) => {
    const answers = ways.map(
      (w) => [w.way, rounded(w.values[e.quantity] ?? Number.NaN, allowedOf(wanted, e))] as const,
    );
    const alike = new Set(answers.map(([, text]) => text)).size === 1;
    const text = alike ? (answers[0]?.[1] ?? "") : answers.map(([way, answer]) => `${way} ${answer}`).join(", ");
    return ways.every((w) => isWithin(wanted, e, w))
      ? text
      : `${text} **${wanted.misprint === undefined ? "not met" : "published value wrong"}**`;
  });
  return lines(wanted.misprint === undefined ? found : [...found, wanted.misprint]);
}

function toleranceText(wanted: ValidationCase): string {
  const all = wanted.expected.map(
    (e) => `${size(toleranceOf(wanted, e))}: ${e.toleranceReason ?? wanted.toleranceReason}`,
  );
  return lines([...new Set(all)]);
}

const size = (tolerance: Tolerance): string =>
  "absolute" in tolerance ? `± ${plain(tolerance.absolute)}` : `± ${plain(100 * tolerance.relative)} %`;

/** A number as it was given: no digits beyond those that matter. */
const plain = (value: number): string => String(Number(value.toPrecision(12)));

/** One digit finer than the tolerance, so that rounding in the last place of a double never shows. */
function rounded(value: number, allowed: number): string {
  const decimals = Math.min(12, Math.max(0, 1 - Math.floor(Math.log10(allowed))));
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? (0).toFixed(decimals) : text;
}
