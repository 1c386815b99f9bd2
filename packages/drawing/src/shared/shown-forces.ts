import { add, addScaled, norm, type SiteVector, subtract, unit, ZERO } from "@gantline/engine";
import type { AerialForces, Evaluation, RunningLine, TravelCase } from "@gantline/plan";

/** What a rope does to a place it runs over or is held at, N. */
export interface PlaceForce {
  readonly lineId: string;
  readonly nodeName: string;
  readonly at: SiteVector;
  readonly forceN: SiteVector;
  readonly sizeN: number;
  readonly role: "tip" | "redirect" | "end";
}

/** The case whose forces are drawn: the one asked for if it was solved, else the one that bears hardest on the tip; null: none was solved. */
export function shownCase(evaluation: Evaluation, asked?: TravelCase): TravelCase | null {
  if (asked && evaluation.cases.includes(asked)) return asked;
  const size = (travel: TravelCase): number => norm(evaluation.felt[travel]?.resultantN ?? ZERO);
  return [...evaluation.cases].sort((a, b) => size(b) - size(a))[0] ?? null;
}

/** The case in words. */
export const CASE_TEXT: Readonly<Record<TravelCase, string>> = {
  raise: "as when raising",
  lower: "as when lowering",
};

/** What the ladder's tip feels in a case; null where nothing was solved. */
export const feltAt = (evaluation: Evaluation, travel: TravelCase | null): AerialForces | null =>
  travel ? (evaluation.felt[travel] ?? null) : null;

/**
 * What a rope does to each place along it beyond the load: the pull of the part before and of the part after.
 * The riding pulley is left out: rope and tether hold each other there, and nothing else feels it.
 */
export function forcesAlong(line: RunningLine, travel: TravelCase): readonly PlaceForce[] {
  const tensions = line.tensionsN[travel];
  return line.nodes.flatMap((node, i): PlaceForce[] => {
    const before = line.nodes[i - 1];
    const after = line.nodes[i + 1];
    if (!before || node.id === "rider") return [];
    let force: SiteVector = ZERO;
    force = addScaled(force, unit(subtract(before.at, node.at)), tensions[i - 1] ?? 0);
    if (after) force = add(force, addScaled(ZERO, unit(subtract(after.at, node.at)), tensions[i] ?? 0));
    const role = !after ? "end" : line.role === "main" && i === 1 ? "tip" : "redirect";
    return [{ lineId: line.id, nodeName: node.name, at: node.at, forceN: force, sizeN: norm(force), role }];
  });
}
