import { type LetGoCase, type Plan, type TechniqueRow, type UnitSystem, writePhrase } from "@gantline/plan";
import { writer } from "../shared/write.ts";
import { bandText } from "./case-says.ts";

/** A technique's name, and whether somebody rides with the load. */
export const techniqueTitle = ({ name, attendant }: TechniqueRow): string =>
  `${name}, ${attendant ? "with attendant" : "no attendant"}`;

/** What one technique comes to, a line each: at rest, when a line goes, what it takes. */
export function techniqueSays(
  { figures, worst, says, needs }: TechniqueRow,
  system: UnitSystem,
  nameOf: (lineId: string) => string,
): readonly string[] {
  const write = writer(system);
  const wants = `Needs ${needs.length > 0 ? needs.join("; ") : "nothing the scene lacks"}`;
  if (figures === null) return [writePhrase(says, system), wants];
  const { compressionN, normalN, lateralN, resultantN } = figures.tipInBeam;
  const force = (n: number): string => write(Math.abs(n), "force");
  const gone = worst?.cut.map(nameOf).join(" and ") ?? "";
  return [
    `On the tip ${force(resultantN)}: ${force(compressionN)} ${compressionN < 0 ? "pulling it out" : "along"}, ${force(normalN)} square, ${force(lateralN)} sideways`,
    `Bends the ladder with ${write(figures.ladderMomentNm, "moment")}; ${tips(figures.tippingNm, (n) => write(n, "moment"))}`,
    ...(worst === null
      ? []
      : worst.figures === null
        ? [`${gone} gone: ${writePhrase(worst.says, system)}`]
        : [
            `${gone} gone: at most ${bandText(worst.figures.tipN, "force", write)} on the tip, drop ${write(worst.figures.dropM.high, "length")}${onlyIf(worst)}`,
          ]),
    `${write(figures.ropeM, "length")} of rope, ${figures.people} people on the ropes, ${figures.peopleRaising ?? "unknown how many"} to raise it by hand at the ropes' ends`,
    wants,
  ];
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

/** Names of a plan's lines; an id it does not have is its own name. */
export function lineNames(plan: Plan | null): (lineId: string) => string {
  const { mainLines = [], taglines = [], tether = null } = plan?.rig ?? {};
  const names = new Map([...mainLines, ...taglines, ...(tether ? [tether] : [])].map(({ id, name }) => [id, name]));
  return (id) => names.get(id) ?? id;
}
