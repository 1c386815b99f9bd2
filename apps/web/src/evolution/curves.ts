import type { Evolution, Quantity, Series, UnitSystem } from "@gantline/plan";
import { writeAmount, writeRatio } from "@gantline/plan";

export const WORST = "worst";

/** The worst ratio of all checks at each moment; null where nothing could be worked out. */
export const worstSeries = (evolution: Evolution): Series => ({
  id: WORST,
  label: "Worst ratio of all checks",
  quantity: "ratio",
  values: evolution.moments.map((moment) => (moment.holds === "unsolved" ? null : moment.worst.ratio)),
});

/** The value of a curve between its two nearest moments; null where it is not known. */
export function valueAt({ moments }: Evolution, { values }: Series, at: number): number | null {
  const found = moments.findIndex((moment) => moment.at >= at);
  const after = found < 0 ? moments.length - 1 : found;
  const before = Math.max(0, after - 1);
  const [left, right] = [values[before] ?? null, values[after] ?? null];
  const [from, to] = [moments[before]?.at ?? 0, moments[after]?.at ?? 0];
  if (right === null || to <= from || at >= to) return right;
  return left === null ? null : left + ((at - from) / (to - from)) * (right - left);
}

export const writeValue = (value: number | null, quantity: Quantity, system: UnitSystem): string =>
  value === null ? "not known" : quantity === "ratio" ? writeRatio(value) : writeAmount({ value, quantity }, system);

/** Which check governs along the evolution: where each stretch begins, and how wide it is. */
export function governing(evolution: Evolution): readonly { name: string; from: number; to: number }[] {
  const names = new Map(evolution.ledger.map((check) => [check.id, check.subject]));
  const found: { name: string; from: number; to: number }[] = [];
  for (const { at, worst } of evolution.moments) {
    const name = names.get(worst.checkId ?? "") ?? "";
    const last = found.at(-1);
    if (last !== undefined) last.to = at;
    if (name !== last?.name) found.push({ name, from: at, to: at });
  }
  return found.filter(({ name }) => name !== "");
}
