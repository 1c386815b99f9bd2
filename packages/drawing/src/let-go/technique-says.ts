import {
  hardestPulled,
  type LetGoCase,
  type LetGoFigures,
  type TechniqueRow,
  type UnitSystem,
  writePhrase,
  writeRatio,
} from "@gantline/plan";
import { type Write, writer } from "../shared/write.ts";
import { mostText } from "./case-says.ts";

/** A technique's name, and whether somebody rides with the load. */
export const techniqueTitle = ({ name, attendant }: TechniqueRow): string =>
  `${name}, ${attendant ? "with attendant" : "no attendant"}`;

/** What one technique comes to, a line each: at rest, when a line goes and how that is judged, what it takes. */
export function techniqueSays(row: TechniqueRow, system: UnitSystem): readonly string[] {
  const { figures, worst, says, needs } = row;
  const gone = `${row.gone} gone${row.tip === "gives" ? ", with a tip that gives" : ""}`;
  const write = writer(system);
  const wants = `Needs ${needs.length > 0 ? needs.join("; ") : "nothing the scene lacks"}`;
  if (figures === null) return [writePhrase(says, system), wants];
  const { compressionN, normalN, lateralN, resultantN } = figures.tipInBeam;
  const force = (n: number): string => write(Math.abs(n), "force");
  return [
    `On the tip ${force(resultantN)}: ${force(compressionN)} ${compressionN < 0 ? "pulling it out" : "along"}, ${force(normalN)} square, ${force(lateralN)} sideways; ${ratingSays(row)}`,
    `Bends the ladder with ${write(figures.ladderMomentNm, "moment")}; ${tips(figures.tippingNm, (n) => write(n, "moment"))}`,
    ...(worst === null
      ? []
      : worst.figures === null
        ? [`${gone}: ${writePhrase(worst.says, system)}`]
        : [`${gone}: ${lossSays(worst.figures, write)}${onlyIf(worst)}`]),
    ...verdictSays(row),
    `${write(figures.ropeM, "length")} of rope, ${figures.people} people on the ropes, ${figures.peopleRaising ?? "unknown how many"} to raise it by hand at the ropes' ends`,
    wants,
  ];
}

/** Of the tip at rest: "over its rating, 112 %". */
export const ratingSays = ({ tipAtRest }: Pick<TechniqueRow, "tipAtRest">): string =>
  tipAtRest === null || tipAtRest.status === "unknown"
    ? "its rating is unknown"
    : `${tipAtRest.status === "over" ? "over its rating, " : ""}${writeRatio(tipAtRest.ratio)}${tipAtRest.status === "over" ? "" : " of its rating"}`;

/** Every figure of a loss that can hurt, the most each may be. */
function lossSays(figures: LetGoFigures, write: Write): string {
  const { tipN, person, hits, swingM, dropM, lines } = figures;
  const pulled = hardestPulled(figures);
  const slipM = Math.max(0, ...lines.map((l) => l.slippedM));
  return [
    `at most ${mostText(tipN, "force", write)} on the tip`,
    ...(pulled ? [`${mostText(pulled.peakN, "force", write)} in ${pulled.name}`] : []),
    ...(person ? [`${write(person.peakN.high, "force")} on ${person.name}`] : []),
    `drop ${write(dropM.high, "length")}`,
    `swing ${write(swingM.high, "length")}`,
    ...hits.map(({ what, speedMS }) => `hits ${what} at ${write(speedMS, "speed")}`),
    ...(slipM > 0 ? [`${write(slipM, "length")} of rope through its brake`] : []),
  ].join(", ");
}

/** What the checks say of the loss: "Worst of its checks: peak in the rope of Main B, 127 %: unknown; over if its brake holds fast". */
function verdictSays({ verdict, worst }: TechniqueRow): readonly string[] {
  if (verdict === null) return [];
  const { status, ifHeld } = verdict;
  const subject = ifHeld.subject.replace("A line gone: ", "");
  const ratio = ifHeld.ratio === null ? "" : `, ${writeRatio(ifHeld.ratio)}`;
  const held =
    (worst?.slipUnknown.length ?? 0) > 0 && worst?.figures ? `; ${ifHeld.status} if its brake holds fast` : "";
  return [`Worst of its checks: ${subject}${ratio}: ${status}${held}`];
}

/** What the figures of a loss rest on that is not known. */
const onlyIf = ({ slipUnknown }: LetGoCase): string =>
  slipUnknown.length > 0 ? ", if its brake does not slip: unknown" : "";

const tips = (tippingNm: number | null, moment: (n: number) => string): string =>
  tippingNm === null
    ? "whether it tips the vehicle is unknown"
    : tippingNm < 0
      ? "nothing tips the vehicle"
      : `tips the vehicle with ${moment(tippingNm)}`;
