import type { RunningLine } from "@gantline/plan";
import type { Style, Tone } from "../primitives.ts";

/** How one rope is drawn: told apart by letter, weight and dashes; colour only helps. */
export interface RopeLook {
  /** "A", "B", "T1", "T2", "S" for the skate tether. */
  readonly tag: string;
  readonly tone: Tone;
  readonly style: Style;
  /** A tackle: two lines this far apart, px. */
  readonly pairPx?: number;
}

/** The look of every rope, by its id: main lines A, B in the plan's order, taglines T1, T2, the tether as a tackle. */
export function ropeLooks(lines: readonly Pick<RunningLine, "id" | "role">[]): ReadonlyMap<string, RopeLook> {
  const looks = new Map<string, RopeLook>();
  const count = { main: 0, tagline: 0, tether: 0 };
  for (const line of lines) {
    const k = count[line.role]++;
    looks.set(line.id, line.role === "main" ? mainLook(k) : line.role === "tether" ? TETHER_LOOK : taglineLook(k));
  }
  return looks;
}

const TETHER_LOOK: RopeLook = { tag: "S", tone: "tether", style: { stroke: "tether", widthPx: 1.2 }, pairPx: 4 };

function mainLook(k: number): RopeLook {
  const tag = String.fromCharCode(65 + Math.min(k, 25));
  return k === 0
    ? { tag, tone: "mainA", style: { stroke: "mainA", widthPx: 2.4 } }
    : { tag, tone: "mainB", style: { stroke: "mainB", widthPx: 2.2, dash: "dashed" } };
}

const taglineLook = (k: number): RopeLook => ({
  tag: `T${k + 1}`,
  tone: "tagline",
  style:
    k === 0 ? { stroke: "tagline", widthPx: 1.6, dash: "chain" } : { stroke: "tagline", widthPx: 2.2, dash: "dotted" },
});
