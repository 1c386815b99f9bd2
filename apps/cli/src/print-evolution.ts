import { stageAndPercent } from "@gantline/drawing";
import {
  CAUTION,
  ENTRY_UNIT,
  type Evolution,
  exampleLine,
  type Plan,
  type Quantity,
  type StageResult,
  type UnitSystem,
  writeAmount,
  writePhrase,
  writeRatio,
} from "@gantline/plan";
import { oneLine } from "./one-line.ts";

/** Checks of the whole evolution that are printed; the rest stand in --json. */
const MOST_CHECKS = 20;

/** The stages one by one, then every check at its worst moment, worst first. */
export function printEvolution(plan: Plan, evolution: Evolution, system: UnitSystem): string {
  const example = exampleLine(plan);
  const counting = evolution.ledger.filter((c) => c.counts);
  const lines = [
    oneLine(plan.name),
    ...(example === null ? [] : [example]),
    CAUTION,
    evolution.stages.length === 0
      ? "This plan has no stages."
      : `${evolution.stages.length} stages, ${evolution.moments.length} moments.`,
    "",
    ...evolution.stages.flatMap((stage, index) => stageLines(evolution, stage, index, system)),
    ...(counting.length > 0 ? ["", "Worst of all moments:"] : []),
    ...counting.slice(0, MOST_CHECKS).map((c) => {
      const where = c.when === null ? "" : ` (${stageAndPercent(c.when)})`;
      return `${c.status.padEnd(8)}${writeRatio(c.ratio).padStart(12)}  ${oneLine(c.subject)}${where}: ${oneLine(writePhrase(c.says, system))}`;
    }),
    ...(counting.length > MOST_CHECKS ? [`and ${counting.length - MOST_CHECKS} more, none worse.`] : []),
  ];
  return `${lines.join("\n")}\n`;
}

function stageLines(evolution: Evolution, result: StageResult, index: number, system: UnitSystem): readonly string[] {
  const { worst, stage } = result;
  const subject = evolution.ledger.find((c) => c.id === worst.checkId)?.subject ?? "";
  const length = (value: number): string => writeAmount({ value, quantity: "length" }, system);
  const head = `${String(index + 1).padStart(2)}. ${oneLine(stage.name)}: ${length(result.pathM)}; worst ${worst.status} ${writeRatio(worst.ratio)}, ${oneLine(subject)}, ${stageAndPercent(worst.when)}`;
  return [
    head,
    ...result.problems.map((p, k) => {
      const status = evolution.ledger.find((c) => c.id === `stage/${stage.id}/${k + 1}`)?.status ?? "unknown";
      return `    ${status}: ${oneLine(writePhrase(p.says, system))}`;
    }),
    ...result.freeRope.map(
      (r) =>
        `    ${oneLine(r.name)}: ${length(Math.abs(r.changeM))} of free rope ${r.changeM >= 0 ? "needed" : "given back"}`,
    ),
    ...(result.work === null || result.pathM === 0
      ? []
      : [
          `    work put in ${kilojoules(result.work.putInJ)}, gained ${kilojoules(result.work.gainedJ)}, friction ${kilojoules(result.work.frictionJ)}`,
        ]),
  ];
}

const kilojoules = (joules: number): string => `${(joules / 1000).toFixed(2)}\u202fkJ`;

/** One row a moment, for a spreadsheet: SI units, named at the head of each column. */
export function evolutionCsv(evolution: Evolution): string {
  const head = [
    "stage",
    "stage_name",
    "along",
    "yoke_x_m",
    "yoke_y_m",
    "yoke_z_m",
    "status",
    "worst_check",
    "worst_ratio",
    ...evolution.series.map((s) => `${s.id}${siUnit(s.quantity)}`),
  ];
  const rows = evolution.moments.map((m, i) => [
    m.when.stage + 1,
    evolution.stages[m.when.stage]?.stage.name ?? "",
    m.when.along,
    ...m.yoke,
    m.worst.status,
    m.worst.checkId ?? "",
    m.worst.ratio ?? "",
    ...evolution.series.map((s) => s.values[i] ?? ""),
  ]);
  return `${[head, ...rows].map((row) => row.map(cell).join(",")).join("\r\n")}\r\n`;
}

const siUnit = (quantity: Quantity): string =>
  quantity === "ratio" ? "" : quantity === "force" ? " [N]" : ` [${ENTRY_UNIT[quantity].metric}]`;

/** RFC 4180; a text that a spreadsheet would take for a formula is made plain. */
function cell(value: string | number): string {
  if (typeof value === "number") return String(value);
  const plain = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
}
