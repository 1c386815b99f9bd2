import { cellText, stageAndPercent, techniqueSays, techniqueTitle } from "@gantline/drawing";
import {
  type Band,
  CAUTION,
  type CriticalPoint,
  exampleLine,
  LET_GO_LIMITS,
  type LetGoCase,
  type LetGoEvolution,
  linesOn,
  type Plan,
  type Quantity,
  type ShareSlackCell,
  type ShareSlackMap,
  type TechniqueRow,
  TIP_SAYS,
  type TimedCheck,
  type UnitSystem,
  type When,
  type WorstCut,
  writeAmount,
  writePhrase,
  writeRatio,
} from "@gantline/plan";
import { oneLine } from "./one-line.ts";

/** Each line's worst loss, the checks, critical points worst first, the map, the techniques, and what the model does not have in it. */
export function printLetGo(
  plan: Plan,
  found: LetGoEvolution,
  when: When | null,
  points: readonly CriticalPoint[],
  rows: readonly TechniqueRow[],
  system: UnitSystem,
): string {
  const example = exampleLine(plan);
  const lines = [
    oneLine(plan.name),
    ...(example === null ? [] : [example]),
    CAUTION,
    found.cuts.length > 0 ? `${found.cuts.length} cuts, every line at every moment.` : "Every line cut once.",
    TIP[found.tip],
    "",
    "Each line's worst loss (low, as entered, high):",
    ...found.worst.flatMap((w) => worstLines(w, system)),
    "",
    "Checks on what is left, each at its worst:",
    ...found.ledger.map((check) => checkLine(check, system)),
    "",
    `Taken away one by one${when === null ? "" : ` (${stageAndPercent(when)})`}:`,
    ...pointLines(points, system),
    "",
    ...(found.map === null ? [] : [...mapLines(plan, found.map, system), ""]),
    `Techniques on this scene with this load${when === null ? "" : ` (${stageAndPercent(when)})`}:`,
    ...rows.flatMap((row) => [
      techniqueTitle(row),
      ...techniqueSays(row, system).map((says) => `    ${oneLine(says)}`),
    ]),
    "",
    "What these figures do not have in them:",
    ...LET_GO_LIMITS.map((limit) => `- ${limit}`),
  ];
  return `${lines.join("\n")}\n`;
}

const TIP = { stiff: `${TIP_SAYS.stiff} (--tip-gives).`, gives: `${TIP_SAYS.gives}.` } as const;

const checkLine = ({ status, ratio, subject, says, when }: TimedCheck, system: UnitSystem): string =>
  `${status.padEnd(8)}${writeRatio(ratio).padStart(12)}  ${oneLine(subject)}${when === null ? "" : ` (${stageAndPercent(when)})`}: ${oneLine(writePhrase(says, system))}`;

/** One line gone at one moment: what it comes to, how the damped motion ends, and the checks on it. */
export function printCase(
  plan: Plan,
  lineId: string,
  one: LetGoCase,
  ledger: readonly TimedCheck[],
  system: UnitSystem,
): string {
  const name = linesOn(plan).find(({ id }) => id === lineId)?.name ?? lineId;
  const { figures, settled, fall } = one;
  const write = (value: number, quantity: Quantity): string => writeAmount({ value, quantity }, system);
  const example = exampleLine(plan);
  const lines = [
    oneLine(plan.name),
    ...(example === null ? [] : [example]),
    CAUTION,
    "",
    ...worstLines({ lineId, name, worst: one }, system),
    ...(figures?.points ?? []).map(
      ({ name: point, inBeam: { compressionN, normalN, lateralN, resultantN } }) =>
        `    ${oneLine(point)} ${write(resultantN, "force")}: ${write(compressionN, "force")} along the ladder, ${write(normalN, "force")} square to it, ${write(lateralN, "force")} sideways, each at its own highest`,
    ),
    ...(settled === null
      ? []
      : [
          `    ${settled.atRest ? "at rest" : "still moving"} after ${write(settled.timeS, "time")}, with the damping that ropes are reckoned to have: ${linesOn(
            plan,
          )
            .flatMap(({ id, name: of }) =>
              settled.tensionsN[id] === undefined ? [] : [`${oneLine(of)} ${write(settled.tensionsN[id], "force")}`],
            )
            .join(", ")}`,
        ]),
    ...(fall === null || fall.timeS === null ? [] : [`    down after ${write(fall.timeS, "time")}`]),
    "",
    "Checks on what is left:",
    ...ledger.map((check) => checkLine({ ...check, when: null }, system)),
    "",
    "What these figures do not have in them:",
    ...LET_GO_LIMITS.map((limit) => `- ${limit}`),
  ];
  return `${lines.join("\n")}\n`;
}

/** Force at the tip over share and slack, a row for each share. */
function mapLines(
  plan: Plan,
  { when, cut, shares, slacksM, cells, here, slipUnknown }: ShareSlackMap,
  system: UnitSystem,
): readonly string[] {
  const write = (value: number, quantity: Quantity): string => writeAmount({ value, quantity }, system);
  const name = linesOn(plan).find(({ id }) => id === cut)?.name ?? cut;
  const words = ({ outcome, tipN, lands }: ShareSlackCell): string =>
    outcome !== "held"
      ? outcome
      : tipN === null
        ? "nothing moves"
        : `${bandText(tipN, "force", system)}${lands ? " down" : ""}`;
  const rows = cells.map((bySlack) => bySlack.map(words));
  const wide =
    2 + Math.max(...rows.flat().map((text) => text.length), ...slacksM.map((m) => write(m, "length").length));
  return [
    `Force at the tip when ${oneLine(name)} goes${when === null ? "" : ` (${stageAndPercent(when)})`}, from the least to the most, by its share of the load and the slack in the other; "falls": it comes down before it is held; "down": it comes down on what is below${slipUnknown.length > 0 ? "; a brake is only taken to hold fast" : ""}:`,
    `${"".padStart(8)}${slacksM.map((m) => write(m, "length").padStart(wide)).join("")}`,
    ...rows.map(
      (row, i) =>
        `${`${Math.round(100 * (shares[i] ?? 0))} %`.padStart(8)}${row.map((text) => text.padStart(wide)).join("")}`,
    ),
    `This plan, ${Math.round(100 * here.share)} % and no slack: ${cellText(here, system)}`,
  ];
}

/** "2.96 kN to 3.35 kN"; one figure where both ends read the same. */
function bandText({ low, high }: Pick<Band, "low" | "high">, quantity: Quantity, system: UnitSystem): string {
  const [from, to] = [low, high].map((value) => writeAmount({ value, quantity }, system));
  return from === to ? `${to}` : `${from} to ${to}`;
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
    ...figures.lines.map(
      (l) =>
        `    ${oneLine(l.name)} ${band(l.peakN, "force")}${l.letGo ? ", hands let go" : ""}${l.slippedM > 0 ? `, ${writeAmount({ value: l.slippedM, quantity: "length" }, system)} through its brake` : ""}`,
    ),
    ...(figures.person ? [`    on ${oneLine(figures.person.name)} ${band(figures.person.peakN, "force")}`] : []),
    ...figures.nearest
      .slice(0, 2)
      .map(
        (n) => `    nearest to ${oneLine(n.what)}: ${writeAmount({ value: n.distanceM, quantity: "length" }, system)}`,
      ),
    ...figures.hits.map(
      (hit) => `    hits ${oneLine(hit.what)} at ${writeAmount({ value: hit.speedMS, quantity: "speed" }, system)}`,
    ),
  ];
}

/** Points in order, those of the same outcome in the same words on one line. */
function pointLines(points: readonly CriticalPoint[], system: UnitSystem): readonly string[] {
  const groups = new Map<string, { readonly head: string; readonly says: string; readonly subjects: string[] }>();
  for (const p of points) {
    const says = oneLine(writePhrase(p.says, system));
    const head = `${p.outcome}${p.unavoidable ? ", one on any such rig" : p.shared && p.kind !== "everyone" ? ", shared by both ropes" : ""}`;
    const key = `${head}/${says}`;
    const group = groups.get(key) ?? { head, says, subjects: [] };
    groups.set(key, group);
    group.subjects.push(oneLine(p.subject));
  }
  return [...groups.values()].flatMap(({ head, says, subjects }) => [`${head}: ${says}`, `    ${subjects.join("; ")}`]);
}
