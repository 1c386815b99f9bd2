import { stageAndPercent } from "@gantline/drawing";
import {
  CAUTION,
  ENTRY_UNIT,
  type Evolution,
  exampleLine,
  type FreeRope,
  type Moment,
  type Plan,
  type Quantity,
  type StageLetOut,
  type StageResult,
  swingSays,
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
    ...result.problems.map((p) => `    ${p.status}: ${oneLine(writePhrase(p.says, system))}`),
    ...result.freeRope.map((r) => `    ${oneLine(r.name)}: ${freeRopeText(r, length)}`),
    ...result.runs
      .filter((r) => Math.min(r.takenInM, r.letOutM) > LEAST_RUN_M)
      .map(
        (r) => `    ${oneLine(r.name)} runs both ways: ${length(r.takenInM)} taken in, ${length(r.letOutM)} let out`,
      ),
    ...result.letOuts.map(
      (one) => `    if ${oneLine(one.name)} is let go (${stageAndPercent(one.when)}): ${letOutText(one, system)}`,
    ),
    ...(result.work === null || result.pathM === 0
      ? []
      : [
          `    work put in ${kilojoules(result.work.putInJ)}, gained ${kilojoules(result.work.gainedJ)}, friction ${kilojoules(result.work.frictionJ)}, stretch ${kilojoules(result.work.strainJ)}`,
        ]),
    ...(result.unsettled.length === 0
      ? []
      : [
          `    the worst of these may be more than half a per cent higher: ${result.unsettled.map((u) => u.checkId).join(", ")}`,
        ]),
  ];
}

const letOutText = (one: StageLetOut, system: UnitSystem): string => {
  const says = oneLine(writePhrase(swingSays(one), system));
  return says.charAt(0).toLowerCase() + says.slice(1);
};

/** A run shorter than this is none, m. */
const LEAST_RUN_M = 0.01;

/** "2.10 m of free rope needed at the end, at most 3.00 m on the way". */
function freeRopeText({ changeM, mostM, leastM }: FreeRope, length: (value: number) => string): string {
  if (Math.max(mostM, leastM) <= LEAST_RUN_M) return "its way does not change";
  const end = `${length(Math.abs(changeM))} of free rope ${changeM >= 0 ? "needed" : "given back"} at the end`;
  const out = mostM > Math.max(changeM, 0) + LEAST_RUN_M ? `, ${length(mostM)} needed on the way` : "";
  const back = leastM > Math.max(-changeM, 0) + LEAST_RUN_M ? `, ${length(leastM)} given back on the way` : "";
  return `${end}${out}${back}`;
}

const kilojoules = (joules: number): string => `${(Math.round(joules / 10) / 100 || 0).toFixed(2)}\u202fkJ`;

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
    "wanted_x_m",
    "wanted_y_m",
    "wanted_z_m",
    "holds",
    "problems",
    "let_go",
    ...evolution.series.map((s) => `${s.id}${siUnit(s.quantity)}`),
  ];
  const problems = new Map(evolution.stages.flatMap((s) => s.problems).map((p) => [p.id, p]));
  const says = (m: Moment): string =>
    m.problems.map((id) => writePhrase(problems.get(id)?.says ?? [id], "metric")).join(" ");
  // Told at the moment of its stage at which it would be worst; the swing itself has a column of its own at every moment.
  const letGoSays = ({ when }: Moment): string =>
    (evolution.stages[when.stage]?.letOuts ?? [])
      .filter((one) => one.when.along === when.along)
      .map((one) => `${one.name} let go: ${letOutText(one, "metric")}`)
      .join(" ");
  const rows = evolution.moments.map((m, i) => [
    m.when.stage + 1,
    evolution.stages[m.when.stage]?.stage.name ?? "",
    m.when.along,
    ...m.yoke,
    m.worst.status,
    m.worst.checkId ?? "",
    m.worst.ratio ?? "",
    ...m.wanted,
    m.holds,
    says(m),
    letGoSays(m),
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
