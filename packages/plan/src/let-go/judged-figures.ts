import type { LetGoCase } from "./let-go-plan-types.ts";
import { BELOW } from "./load-stops.ts";

/** A figure of a case by its name. */
export type JudgedFigure = readonly [name: string, value: number];

/** What is judged of a case, by name, each by the high end; none where it has no figures. */
export function judgedFigures({ figures, cut }: LetGoCase): readonly JudgedFigure[] {
  const found: JudgedFigure[] = [];
  if (figures === null) return found;
  const { utilisations, tipInBeam, person, nearest } = figures;
  const see = (name: string, value: number): void => void found.push([name, value]);
  see("tip", figures.tipN.high);
  see("tip, of its rating", utilisations.resultant.ratio ?? 0);
  see("bending", utilisations.bending.ratio ?? 0);
  see("compression", utilisations.compression.ratio ?? 0);
  see("sideways", Math.abs(tipInBeam.lateralN));
  see("drop", figures.dropM.high);
  see("swing", figures.swingM.high);
  const ground = nearest.find((n) => n.what === BELOW);
  if (ground) see("near the ground", -ground.distanceM);
  for (const hit of figures.hits) see(`hit/${hit.what}`, hit.speedMS);
  if (person) see("person", person.peakN.high);
  for (const p of figures.points) see(`point/${p.pointId}`, p.peakN.high);
  for (const l of figures.lines) {
    see(`rope/${l.lineId}`, l.peakN.high);
    see(`end/${l.lineId}`, l.atEndN.high);
    if (l.slippedM > 0) see(`slip/${l.lineId}`, l.slippedM);
  }
  for (const id of cut) see(`line/${id}`, figures.tipN.high);
  return found;
}
