import { type Band, type LetGoCase, type Quantity, type UnitSystem, writePhrase } from "@gantline/plan";
import { type Write, writer } from "../shared/write.ts";

/** Parts of a figure nearer to each other than this share are written as one. */
const SAME = 0.005;

/** "2.41 kN (2.10 to 2.66 kN)": as entered, and between what; where all is one, once. */
export function bandText({ low, entered, high }: Band, quantity: Quantity, write: Write): string {
  if (high - low <= SAME * Math.abs(entered)) return write(entered, quantity);
  return `${write(entered, quantity)} (${write(low, quantity)} to ${write(high, quantity)})`;
}

/** A case in one or two sentences, for those who cannot see it. */
export function caseSays({ says, figures }: LetGoCase, system: UnitSystem): string {
  const write = writer(system);
  const sentence = writePhrase(says, system);
  if (figures === null) return sentence;
  const [near] = figures.nearest;
  return (
    `${sentence} Force at the tip at most ${bandText(figures.tipN, "force", write)}; ` +
    `the load drops ${bandText(figures.dropM, "length", write)} and swings ${bandText(figures.swingM, "length", write)} aside` +
    `${near === undefined ? "" : `, nearest to ${near.what}, ${write(near.distanceM, "length")}`}.`
  );
}
