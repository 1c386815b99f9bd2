import { angleBetween, asSite, site, subtract } from "@gantline/engine";
import { mainForces } from "../rig/main-forces.ts";
import type { Situation } from "../situation.ts";
import type { Quantity } from "../units/quantity.ts";
import type { SeriesTable } from "./series-table.ts";

type Note = (id: string, label: () => string, quantity: Quantity, value: number) => void;

/** Puts the forces, lengths, angles and clearances of a moment that can be drawn as curves into a row. */
export function noteFigures(table: SeriesTable, row: number[], s: Situation, empty: boolean): void {
  const note: Note = (id, label, quantity, value) => table.note(row, id, () => ({ label: label(), quantity }), value);
  if (!empty) {
    for (const line of s.lines) {
      let most = Number.NEGATIVE_INFINITY;
      for (const c of s.cases) most = Math.max(most, ...line.tensionsN[c]);
      if (Number.isFinite(most)) note(`tension/${line.id}`, () => `${line.name}, highest tension`, "force", most);
      note(`length/${line.id}`, () => `${line.name}, length of its path`, "length", line.pathM);
      if (line.role === "tagline") noteAngle(note, line.id, line.name, line.nodes);
    }
    const tip = s.cases.flatMap((c) => s.felt[c]?.inBeam.resultantN ?? []);
    if (tip.length > 0) note("force/tip", () => "Tip, resultant", "force", Math.max(...tip));
    notePoints(note, s);
    noteRoot(note, s);
    noteAnchors(note, s);
    const { tether } = s;
    if (tether) {
      note("length/tether-reach", () => `${tether.name}, yoke to pulley`, "length", tether.lengthM);
      note("force/tether-along", () => `${tether.name}, pull along the ladder`, "force", tether.alongLadderN);
    }
    note("height/yoke", () => "Height of the yoke", "length", s.load.yoke[2]);
  }
  for (const c of s.clearances)
    if (!c.unplaced && (!empty || c.kind === "ladder"))
      note(`clearance/${c.id}`, () => `${c.what} to ${c.toWhat}`, "length", c.distanceM);
}

const PARTS = [
  ["compressionN", "compression", "compression"],
  ["normalN", "normal", "square to the ladder"],
  ["lateralN", "lateral", "sideways"],
  ["resultantN", "resultant", "resultant"],
] as const;

/** Each rigging point in the ladder's axes: each part where it is largest of the travel cases, with its sign. */
function notePoints(note: Note, { cases, felt }: Situation): void {
  const points = cases.map((c) => felt[c]?.points ?? []);
  for (const [i, { pointId, name }] of (points[0] ?? []).entries())
    for (const [part, id, word] of PARTS) {
      let largest = 0;
      for (const there of points) {
        const value = there[i]?.[part] ?? 0;
        if (Math.abs(value) > Math.abs(largest)) largest = value;
      }
      note(`force/point/${pointId}/${id}`, () => `${name}, ${word}`, "force", largest);
    }
}

/** What the ropes twist the ladder by and bend it sideways, at its pivot. */
function noteRoot(note: Note, { cases, felt }: Situation): void {
  const roots = cases.flatMap((c) => felt[c]?.root ?? []);
  if (roots.length === 0) return;
  const most = (part: "torsionNm" | "lateralMomentNm"): number =>
    Math.max(...roots.map((root) => Math.abs(root[part])));
  note("moment/twist", () => "Ladder, twist at the pivot", "moment", most("torsionNm"));
  note("moment/sideways", () => "Ladder, sideways bending at the pivot", "moment", most("lateralMomentNm"));
}

/** What each redirect and brake pulls on what it is made fast to; not where a sheave's efficiency is not known. */
function noteAnchors(note: Note, { state, cases }: Situation): void {
  for (const main of state?.mains ?? []) {
    const { line } = main.laid;
    const { redirects, brake } = mainForces(main, cases);
    for (const [k, { id, name }] of line.redirects.entries()) {
      const forceN = redirects[k]?.forceN ?? null;
      if (forceN !== null)
        note(`force/anchor/${line.id}/${id}`, () => `${line.name}, ${name}, anchor`, "force", forceN);
    }
    if (brake.forceN !== null)
      note(`force/anchor/${line.id}/brake`, () => `${line.name}, brake, anchor`, "force", brake.forceN);
  }
}

/** How steeply a tagline leads up from the hands: 0 level, negative where it leads down. */
function noteAngle(note: Note, id: string, name: string, nodes: Situation["lines"][number]["nodes"]): void {
  const [yoke, hands] = [nodes[0]?.at, nodes.at(-1)?.at];
  if (!yoke || !hands) return;
  const way = subtract(asSite(yoke), asSite(hands));
  note(`angle/${id}`, () => `${name}, angle above level`, "angle", Math.PI / 2 - angleBetween(way, site(0, 0, 1)));
}
