import { otherSays, reasonSays, reasonWord, stageAndPercent } from "@gantline/drawing";
import {
  bestByAspect,
  CAUTION,
  exampleLine,
  isTight,
  type Phrase,
  type Plan,
  type Quantity,
  STAND_ASPECTS,
  type StandAspect,
  type StandEntry,
  type StandPick,
  type StandPlacement,
  type UnitSystem,
  writeAmount,
  writePhrase,
  writeRatio,
} from "@gantline/plan";
import { oneLine } from "./one-line.ts";
import { passedOverSays, type StandAnswer, type VehicleSearch, vehicleSearches } from "./stand-report.ts";

const ASPECT: Readonly<Record<StandPick, string>> = {
  steepest: "steepest",
  shortest: "shortest",
  leastUsed: "least used",
  lowestTip: "lowest tip load",
  clearest: "clearest",
  leastRope: "least rope",
  roomiest: "most room",
};

/** What is added to a figure of a stand that does not fit. */
const MARK: Readonly<Record<StandEntry["fit"], string>> = {
  fits: "",
  unknown: " (something is not known)",
  fails: " (fails)",
};

type Write = (value: number | null, quantity: Quantity) => string;

/** What was found, as tables to read: the search, the best by each figure, every stand swept, advice, and what to paint. */
export function printStands(plan: Plan, answer: StandAnswer, system: UnitSystem): string {
  const write: Write = (value, quantity) => (value === null ? "unknown" : writeAmount({ value, quantity }, system));
  const example = exampleLine(plan);
  const { entries, advice, placement } = answer;
  const phrase = (says: Phrase): string => oneLine(writePhrase(says, system));
  const numbers = new Map(entries.map((e, i) => [e, i + 1]));
  const lines = [
    oneLine(plan.name),
    ...(example === null ? [] : [example]),
    CAUTION,
    ...answer.passedOver.map((p) => oneLine(passedOverSays(p))),
    ...vehicleSearches(answer).flatMap((s) => ["", ...searchLines(s, system, write, phrase)]),
    "",
    ...(entries.length === 0
      ? ["No stand was found."]
      : [
          entries.some((e) => e.fit !== "fails")
            ? "Best by each figure, of the stands swept through the whole evolution:"
            : "None of the stands swept holds through the whole evolution. Of those that fail, the best by each figure:",
          ...STAND_ASPECTS.map((aspect) => {
            const best = bestByAspect(entries, aspect);
            return `  ${ASPECT[aspect].padEnd(16)}${best ? `stand ${numbers.get(best)}: ${figureOf(best, aspect, write)}${MARK[best.fit]}` : ""}`;
          }),
          ...entries
            .filter((e) => e.bestBy.includes("roomiest"))
            .slice(0, 1)
            .map(
              (e) =>
                `  ${ASPECT.roomiest.padEnd(16)}stand ${numbers.get(e)}: ${write(e.roomM, "length")} off any way, of those listed${MARK[e.fit]}`,
            ),
          "",
          ...table(entries, write),
          "",
          ...entries.map((e, i) => `${String(i + 1).padStart(2)}. ${governing(e, phrase)}`),
        ]),
    ...(advice === null ? [] : ["", ...adviceLines(advice, write, phrase)]),
    ...(placement === null ? [] : ["", ...placementLines(placement, entries[0]?.fit ?? "unknown", write)]),
  ];
  return `${lines.join("\n")}\n`;
}

function searchLines(
  { found, counts, governs }: VehicleSearch,
  system: UnitSystem,
  write: Write,
  phrase: (says: Phrase) => string,
): readonly string[] {
  const [first] = found;
  if (!first) return [];
  const { question, device } = first.asked;
  const over = found.map(({ asked }) => oneLine(asked.aim.name)).join("; ");
  return [
    `${oneLine(device.name)}, over: ${over}`,
    `Places ${write(question.steps.cellM, "length")} apart: ${counts.feasible} fit by vehicle, ladder and rating, ${counts.unknown} not known, ${counts.rejected} do not.`,
    ...[...new Set(found.flatMap(({ asked }) => asked.unknown.map(phrase)))],
    ...byWord(governs).map(([word, { cells, nearest, other, found: own }]) => {
      const { question: of } = own.asked;
      const also = other === null ? "" : ` ${otherSays(of, nearest, other, system)}`;
      return `  ${String(cells).padStart(6)}  ${word}. Nearest: ${oneLine(reasonSays(of, nearest, system) + also)}`;
    }),
  ];
}

type Governs = VehicleSearch["governs"][number];

/** What governs, put together where the map shows it as one. */
function byWord(governs: VehicleSearch["governs"]): readonly (readonly [string, Governs])[] {
  const words = new Map<string, Governs>();
  for (const one of governs) {
    const word = reasonWord(one.check);
    const known = words.get(word);
    if (!known) words.set(word, one);
    else words.set(word, { ...(one.miss < known.miss ? one : known), cells: known.cells + one.cells });
  }
  return [...words].sort(([, a], [, b]) => b.cells - a.cells);
}

function figureOf({ figures }: StandEntry, aspect: StandAspect, write: Write): string {
  switch (aspect) {
    case "steepest":
      return write(figures.elevationRad, "angle");
    case "shortest":
      return write(figures.lengthM, "length");
    case "leastUsed":
      return writeRatio(figures.utilisation);
    case "lowestTip":
      return write(figures.tipForceN, "force");
    case "clearest":
      return `${write(figures.clearanceM, "length")} beyond what is asked`;
    case "leastRope":
      return write(figures.ropeM, "length");
  }
}

/** Every stand swept, with its figures in columns. */
function table(entries: readonly StandEntry[], write: Write): readonly string[] {
  const rows = [
    [
      "",
      "",
      "east",
      "north",
      "front",
      "turned",
      "elevation",
      "length",
      "used",
      "tip",
      "clear",
      "rope",
      "room",
      "over/unknown",
    ],
    ...entries.map((e, i) => {
      const { turntable, headingRad, pose } = e.choice;
      const whole = 2 * Math.PI;
      const turn = (((pose.bearingRad - headingRad) % whole) + whole) % whole;
      return [
        `${i + 1}`,
        `${e.fit}${e.inFront ? "*" : ""}`,
        write(turntable[0], "length"),
        write(turntable[1], "length"),
        write(headingRad, "angle"),
        write(turn, "angle"),
        write(pose.elevationRad, "angle"),
        write(pose.lengthM, "length"),
        writeRatio(e.figures.utilisation),
        write(e.figures.tipForceN, "force"),
        write(e.figures.clearanceM, "length"),
        write(e.figures.ropeM, "length"),
        e.roomM === null ? "" : write(e.roomM, "length"),
        `${e.counts.over}/${e.counts.unknown}`,
      ];
    }),
  ];
  const widths = (rows[0] ?? []).map((_, k) => Math.max(...rows.map((r) => (r[k] ?? "").length)));
  return [
    ...rows.map((r) =>
      r
        .map((cell, k) => cell.padStart(widths[k] ?? 0))
        .join("  ")
        .trimEnd(),
    ),
    "* in front: no other is as good by every figure and better by one, but for room: how far off any way it may be parked",
  ];
}

/** What governs a stand over its evolution. */
function governing({ worst, choice, bestBy, alsoServes }: StandEntry, phrase: (says: Phrase) => string): string {
  const by = bestBy.length > 0 ? ` (${bestBy.map((a) => ASPECT[a]).join(", ")})` : "";
  const also =
    alsoServes.length > 0 ? ` Serves as well: ${alsoServes.map((a) => oneLine(a.aim.name)).join("; ")}.` : "";
  const says =
    worst === null
      ? "nothing was judged"
      : `${worst.status} (${writeRatio(worst.ratio)}), ${oneLine(worst.subject)}${worst.when ? ` (${stageAndPercent(worst.when)})` : ""}: ${phrase(worst.says)}`;
  return `${oneLine(choice.device.name)}${by}: ${says}${also}`;
}

function adviceLines(
  advice: NonNullable<StandAnswer["advice"]>,
  write: Write,
  phrase: (says: Phrase) => string,
): readonly string[] {
  const several = new Set(advice.map((a) => a.vehicle)).size > 1;
  const within = ({ quantity, withinAmount }: (typeof advice)[number]): string =>
    quantity === null || withinAmount === null ? "" : ` To within ${write(withinAmount, quantity)}.`;
  if (advice.length === 0) return ["No single change of those looked at makes a stand possible."];
  return [
    "Single changes after which a stand is found, smallest first:",
    ...advice.map(
      (a) => `  ${a.fit.padEnd(8)}${several ? `${oneLine(a.vehicle)}: ` : ""}${phrase(a.says)}${within(a)}`,
    ),
  ];
}

/** What is taped and painted for the best stand, and what is read at the ladder. */
function placementLines(p: StandPlacement, fit: StandEntry["fit"], write: Write): readonly string[] {
  return [
    "To paint for stand 1:",
    ...(fit === "unknown"
      ? ["  Something of this stand is not known: it may not hold. Paint nothing that is relied on before it is."]
      : []),
    ...p.marks.map((m) => {
      const tapes = m.tapes.map((t) => `${write(t.distanceM, "length")} from ${oneLine(t.from.name)}`).join(", ");
      const side = m.side === null ? "" : `; ${m.side} of the line from the first to the second`;
      return `  ${oneLine(m.name)}: ${tapes === "" ? "nothing near to tape from" : tapes}${side}`;
    }),
    `  Front faces ${write(p.headingRad, "angle")}. Ladder on bearing ${write(p.bearingRad, "angle")}, ${write(p.turnRad, "angle")} clockwise from the front.`,
    `  Inclinometer ${write(p.elevationRad, "angle")}; length ${write(p.lengthM, "length")}, run out ${write(p.extensionM, "length")}.`,
    ...(p.area === null
      ? ["  How far it may be parked off is not known."]
      : [
          ...roomSays(p, p.area.freeM, write),
          `  As far as it does, at most 1 m, the ladder then reads:`,
          ...p.parkedOff
            .filter((_, k) => k % 2 === 0)
            .map(
              ({ bearingRad, distanceM, reading }) =>
                `    ${write(distanceM, "length")} toward ${write(bearingRad, "angle")}: bearing ${write(reading.bearingRad, "angle")}, inclinometer ${write(reading.elevationRad, "angle")}, length ${write(reading.lengthM, "length")}, used ${writeRatio(reading.used)}`,
            ),
        ]),
  ];
}

/** How far off the turntable and the heading may be, and a warning where that is less than anyone parks to. */
function roomSays({ heldToLoad, turnFreeRad }: StandPlacement, freeM: number, write: Write): readonly string[] {
  const what = heldToLoad
    ? "Vehicle, ladder, rating, ropes and load still hold"
    : "Vehicle, ladder and rating (ropes and load fail as planned) still hold";
  const turn = turnFreeRad ? `, or its heading ${write(turnFreeRad, "angle")} off` : ", its heading as planned";
  return [
    ...(isTight(freeM)
      ? [
          "  NO ROOM TO BE PARKED OFF: this stand lies on its limit. Choose one with more room, or park to the mark and judge it anew where the vehicle really stands.",
        ]
      : []),
    freeM < 0.005
      ? `  Nothing is left to be parked off${turn}.`
      : `  ${what} with the turntable ${write(freeM, "length")} off in any direction${turn}.`,
  ];
}
