import type { Situation } from "../situation.ts";
import type { Quantity } from "../units/quantity.ts";
import type { SeriesTable } from "./series-table.ts";

/** Puts the forces, lengths and clearances of a moment that can be drawn as curves into a row. */
export function noteFigures(table: SeriesTable, row: number[], s: Situation, empty: boolean): void {
  const note = (id: string, label: string, quantity: Quantity, value: number): void =>
    table.note(row, { id, label, quantity }, value);
  if (!empty) {
    for (const line of s.lines) {
      let most = Number.NEGATIVE_INFINITY;
      for (const c of s.cases) most = Math.max(most, ...line.tensionsN[c]);
      if (Number.isFinite(most)) note(`tension/${line.id}`, `${line.name}, highest tension`, "force", most);
      note(`length/${line.id}`, `${line.name}, length of its path`, "length", line.pathM);
    }
    const tip = s.cases.flatMap((c) => s.felt[c]?.inBeam.resultantN ?? []);
    if (tip.length > 0) note("force/tip", "Tip, resultant", "force", Math.max(...tip));
    if (s.tether) note("length/tether-reach", "Tether, yoke to pulley", "length", s.tether.lengthM);
    note("height/yoke", "Height of the yoke", "length", s.load.yoke[2]);
  }
  for (const c of s.clearances)
    if (!c.unplaced && (!empty || c.kind === "ladder"))
      note(`clearance/${c.id}`, `${c.what} to ${c.toWhat}`, "length", c.distanceM);
}
