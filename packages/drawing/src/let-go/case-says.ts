import { type Band, type LetGoCase, type Quantity, type UnitSystem, writePhrase } from "@gantline/plan";
import { type Write, writer } from "../shared/write.ts";

/** Parts of a figure nearer to each other than this share are written as one. */
const SAME = 0.005;

/** "2.66 kN (2.10 kN to 2.66 kN)", for after "at most": the most it may be, and its band; where all is one, once. */
export function mostText({ low, high }: Pick<Band, "low" | "high">, quantity: Quantity, write: Write): string {
  if (high - low <= SAME * Math.abs(high)) return write(high, quantity);
  return `${write(high, quantity)} (${write(low, quantity)} to ${write(high, quantity)})`;
}

/** A case in one or two sentences, for those who cannot see it. */
export function caseSays({ says, figures }: LetGoCase, system: UnitSystem): string {
  const write = writer(system);
  const sentence = writePhrase(says, system);
  if (figures === null) return sentence;
  const [near] = figures.nearest;
  return (
    `${sentence} Force at the tip at most ${mostText(figures.tipN, "force", write)}; ` +
    `the load drops at most ${mostText(figures.dropM, "length", write)} and swings at most ${mostText(figures.swingM, "length", write)} aside` +
    `${near === undefined ? "" : `, nearest to ${near.what}, ${write(near.distanceM, "length")}`}.`
  );
}
