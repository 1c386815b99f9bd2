import { norm, type SiteVector } from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import type { MainLine } from "../schema/rig.ts";
import type { LaidMain } from "./lay-lines.ts";
import { type MainState, sheaveOf } from "./rig-state.ts";
import { sheavePull } from "./sheave-pull.ts";

/** A place on a line and the force there, the worst of the travel cases, N; null: not known. */
export interface ForceAt {
  readonly at: SiteVector;
  readonly forceN: number | null;
}

/** What the parts of a main line carry, in order from the load. */
export interface MainForces {
  readonly load: ForceAt;
  /** The highest tension anywhere in the rope, N. */
  readonly highestN: number | null;
  readonly tip: ForceAt;
  /** One for each redirect of the line as entered. */
  readonly redirects: readonly ForceAt[];
  readonly brake: ForceAt;
}

/** As solved. Beyond a sheave of unknown efficiency the tension could be anything. */
export function mainForces(main: MainState, cases: readonly TravelCase[]): MainForces {
  const { nodes } = main;
  const untold = nodes.findIndex((n, i) => i > 0 && i < nodes.length - 1 && n.efficiency === null);
  const firstUnknown = untold < 0 ? nodes.length : untold;
  const tension = (segment: number): number | null =>
    segment < firstUnknown ? most(cases, (c) => main.tensionsN[c][segment] ?? 0) : null;
  const resultant = (node: number): number | null =>
    node > 0 && node < firstUnknown ? most(cases, (c) => norm(sheavePull(nodes, main.tensionsN[c], node))) : null;
  const last = nodes.length - 2;
  const tipAt = sheaveOf(main);
  return {
    load: { at: nodes[0]?.at ?? tipAt, forceN: tension(0) },
    highestN: tension(last) === null ? null : Math.max(...nodes.slice(1).map((_, i) => tension(i) ?? 0)),
    tip: { at: tipAt, forceN: resultant(1) },
    redirects: main.laid.line.redirects.map((r) => {
      const node = nodes.findIndex((n) => n.kind === "redirect" && n.id === r.id);
      return { at: nodes[node]?.at ?? tipAt, forceN: resultant(node) };
    }),
    brake: { at: nodes.at(-1)?.at ?? tipAt, forceN: tension(last) },
  };
}

/** The highest of the travel cases. */
function most(cases: readonly TravelCase[], forceN: (travel: TravelCase) => number): number {
  let highest = Number.NEGATIVE_INFINITY;
  for (const travel of cases) highest = Math.max(highest, forceN(travel));
  return highest;
}

/** Where nothing could be solved: places as far as they are known, no force. */
export function unsolvedForces(line: MainLine, laid: LaidMain | null, yoke: SiteVector): MainForces {
  const unknown = (at: SiteVector | undefined): ForceAt => ({ at: at ?? yoke, forceN: null });
  return {
    load: unknown(yoke),
    highestN: null,
    tip: unknown(laid?.pointAt),
    redirects: line.redirects.map((_, k) => unknown(laid?.anchors[k]?.at)),
    brake: unknown(laid?.anchors.at(-1)?.at),
  };
}
