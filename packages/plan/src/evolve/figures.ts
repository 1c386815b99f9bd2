import type { Situation } from "../situation.ts";
import type { Quantity } from "../units/quantity.ts";
import type { Series, TimedCheck } from "./evolution-types.ts";

/** Figures of one moment by series id: what, in which quantity, how much. */
export type Figures = ReadonlyMap<
  string,
  { readonly label: string; readonly quantity: Quantity; readonly value: number }
>;

/** Forces, lengths and clearances of a moment that can be drawn as curves. */
export function figuresOf(s: Situation, empty: boolean): Figures {
  const found = new Map<string, { label: string; quantity: Quantity; value: number }>();
  const add = (id: string, label: string, quantity: Quantity, value: number): void => {
    found.set(id, { label, quantity, value });
  };
  if (!empty) {
    for (const line of s.lines) {
      add(
        `tension/${line.id}`,
        `${line.name}, highest tension`,
        "force",
        Math.max(...s.cases.flatMap((c) => line.tensionsN[c])),
      );
      add(`length/${line.id}`, `${line.name}, length of its path`, "length", line.pathM);
    }
    const felt = s.cases.flatMap((c) => s.felt[c] ?? []);
    if (felt.length > 0) add("force/tip", "Tip, resultant", "force", Math.max(...felt.map((f) => f.inBeam.resultantN)));
    if (s.tether) add("length/tether-reach", "Tether, yoke to pulley", "length", s.tether.lengthM);
    add("height/yoke", "Height of the yoke", "length", s.load.yoke[2]);
  }
  for (const c of s.clearances)
    if (!empty || c.kind === "ladder") add(`clearance/${c.id}`, `${c.what} to ${c.toWhat}`, "length", c.distanceM);
  return found;
}

/** All curves of an evolution: its figures, then the ratio of every check that has one. */
export function findSeries(
  figures: readonly Figures[],
  ratios: readonly ReadonlyMap<string, number | null>[],
  ledger: readonly TimedCheck[],
): readonly Series[] {
  const heads = new Map<string, { label: string; quantity: Quantity }>();
  for (const f of figures)
    for (const [id, { label, quantity }] of f) if (!heads.has(id)) heads.set(id, { label, quantity });
  const measured = [...heads].map(
    ([id, { label, quantity }]): Series => ({
      id,
      label,
      quantity,
      values: figures.map((f) => f.get(id)?.value ?? null),
    }),
  );
  const judged = ledger
    .filter((c) => c.ratio !== null)
    .map(
      (c): Series => ({
        id: `ratio/${c.id}`,
        label: c.subject,
        quantity: "ratio",
        values: ratios.map((r) => r.get(c.id) ?? null),
      }),
    );
  return [...measured, ...judged];
}
