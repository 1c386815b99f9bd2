import { type Evolution, type Plan, type StageResult, type UnitSystem, writeAmount } from "@gantline/plan";

/**
 * The critical numbers of a stage, a line each: what is aboard, the most the tip feels, the highest tension and the
 * closest clearance anywhere in the stage; for a stage that moves the ladder, how much rope must run free.
 */
export function stageFacts(
  plan: Plan,
  evolution: Evolution,
  result: StageResult,
  system: UnitSystem,
): readonly string[] {
  const length = (value: number): string => writeAmount({ value, quantity: "length" }, system);
  const force = (value: number): string => writeAmount({ value, quantity: "force" }, system);
  const tip = extreme(evolution, result, "force/tip", Math.max);
  const pull = extreme(evolution, result, "tension/", Math.max);
  const near = extreme(evolution, result, "clearance/", Math.min);
  const empty = result.stage.aboard.length === 0;
  return [
    aboardText(plan, result, system),
    ...(tip ? [`Tip at most ${force(tip.value)}`] : empty ? [] : ["Force at the tip unknown"]),
    ...(pull ? [`${pull.label.replace(/, highest tension$/, "")} at most ${force(pull.value)}`] : []),
    ...(near ? [`${sentence(near.label)} ${near.value <= 0 ? "touching" : length(near.value)}`] : []),
    ...result.freeRope
      .filter((r) => Math.abs(r.changeM) > LEAST_ROPE_M)
      .map(
        (r) => `${r.name}: ${length(Math.abs(r.changeM))} ${r.changeM > 0 ? "more rope runs out" : "rope to take in"}`,
      ),
  ];
}

/** A change of path smaller than this is none, m. */
const LEAST_ROPE_M = 0.005;

/** "Load to Grain store" within a sentence of its own: only the first letter is a capital. */
const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function aboardText(plan: Plan, { stage }: StageResult, system: UnitSystem): string {
  if (stage.aboard.length === 0) return "Nothing on the ropes";
  const parts = stage.aboard.map((id) => plan.rig.load.parts.find((p) => p.id === id)?.massKg ?? null);
  const masses = parts.filter((m) => m !== null);
  if (masses.length < parts.length) return "Mass aboard unknown";
  return `${writeAmount({ value: masses.reduce((sum, m) => sum + m, 0), quantity: "mass" }, system)} aboard`;
}

/** The highest or lowest value in the stage of all series whose id begins so; null where none is known. */
function extreme(
  evolution: Evolution,
  { moments: [first, last] }: StageResult,
  idStart: string,
  of: (...values: number[]) => number,
): { readonly label: string; readonly value: number } | null {
  let best: { label: string; value: number } | null = null;
  for (const { id, label, values } of evolution.series) {
    if (!id.startsWith(idStart)) continue;
    const known = values.slice(first, last + 1).filter((v) => v !== null);
    if (known.length === 0) continue;
    const value = of(...known);
    if (best === null || (value !== best.value && of(value, best.value) === value)) best = { label, value };
  }
  return best;
}
