import { stageAndPercent } from "@gantline/drawing";
import {
  type Band,
  CAUTION,
  type CriticalPoint,
  exampleLine,
  LET_GO_LIMITS,
  type LetGoEvolution,
  type Plan,
  type Quantity,
  type UnitSystem,
  type When,
  type WorstCut,
  writeAmount,
  writePhrase,
  writeRatio,
} from "@gantline/plan";
import { oneLine } from "./one-line.ts";

/** Each line's worst loss, the checks, critical points worst first, and what the model does not have in it. */
export function printLetGo(
  plan: Plan,
  found: LetGoEvolution,
  when: When | null,
  points: readonly CriticalPoint[],
  system: UnitSystem,
): string {
  const example = exampleLine(plan);
  const lines = [
    oneLine(plan.name),
    ...(example === null ? [] : [example]),
    CAUTION,
    found.cuts.length > 0 ? `${found.cuts.length} cuts, every line at every moment.` : "Every line cut once.",
    "",
    "Each line's worst loss (low, as entered, high):",
    ...found.worst.flatMap((w) => worstLines(w, system)),
    "",
    "Checks on what is left, each at its worst:",
    ...found.ledger.map((c) => {
      const at = c.when === null ? "" : ` (${stageAndPercent(c.when)})`;
      return `${c.status.padEnd(8)}${writeRatio(c.ratio).padStart(12)}  ${oneLine(c.subject)}${at}: ${oneLine(writePhrase(c.says, system))}`;
    }),
    "",
    `Taken away one by one${when === null ? "" : ` (${stageAndPercent(when)})`}:`,
    ...pointLines(points, system),
    "",
    "What these figures do not have in them:",
    ...LET_GO_LIMITS.map((limit) => `- ${limit}`),
  ];
  return `${lines.join("\n")}\n`;
}

function worstLines({ name, worst }: WorstCut, system: UnitSystem): readonly string[] {
  const { figures } = worst;
  const at = worst.when === null ? "" : ` (${stageAndPercent(worst.when)})`;
  const head = `${oneLine(name)} gone${at}: ${oneLine(writePhrase(worst.says, system))}`;
  if (figures === null) return [head];
  const band = ({ low, entered, high }: Band, quantity: Quantity): string =>
    [low, entered, high].map((value) => writeAmount({ value, quantity }, system)).join(", ");
  return [
    head,
    `    tip ${band(figures.tipN, "force")}; down ${band(figures.dropM, "length")}; aside ${band(figures.swingM, "length")}`,
    ...figures.lines.map((l) => `    ${oneLine(l.name)} ${band(l.peakN, "force")}${l.letGo ? ", hands let go" : ""}`),
    ...figures.nearest
      .slice(0, 2)
      .map(
        (n) => `    nearest to ${oneLine(n.what)}: ${writeAmount({ value: n.distanceM, quantity: "length" }, system)}`,
      ),
  ];
}

/** Points in order, those of the same outcome in the same words on one line. */
function pointLines(points: readonly CriticalPoint[], system: UnitSystem): readonly string[] {
  const groups = new Map<string, { readonly head: string; readonly says: string; readonly subjects: string[] }>();
  for (const p of points) {
    const says = oneLine(writePhrase(p.says, system));
    const head = `${p.outcome}${p.unavoidable ? ", one on any such rig" : p.shared ? ", shared by both ropes" : ""}`;
    const key = `${head}/${says}`;
    const group = groups.get(key) ?? { head, says, subjects: [] };
    groups.set(key, group);
    group.subjects.push(oneLine(p.subject));
  }
  return [...groups.values()].flatMap(({ head, says, subjects }) => [`${head}: ${says}`, `    ${subjects.join("; ")}`]);
}
