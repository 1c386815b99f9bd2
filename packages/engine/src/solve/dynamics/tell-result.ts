import { type SiteVector, site } from "../../base/vector.ts";
import type { Shape } from "../../scene/solids.ts";
import type { CompiledLine, CompiledSystem } from "./compiled-system.ts";
import type { Approach, EnergyBook, LetGo, LinePeak, NodePeak, Touch } from "./let-go-types.ts";
import type { MotionLog } from "./motion-log.ts";
import { boxToPlane, boxToShape, nearestApproach } from "./nearest-approach.ts";
import type { Peak, PeakWatch } from "./peak-watch.ts";
import { sum } from "./rope-chain.ts";

/** How a line fared along the way. */
export interface LineStory {
  wasSlack: boolean;
  letGoAtS: number | null;
  /** Rope in it at the start, m. */
  readonly startRopeM: number;
}

/** A motion that gives no answer, and the node it is about. */
export interface Unfollowed {
  readonly ok: false;
  readonly code: "nothing-holds" | "not-converged";
  readonly where: string;
}

export interface Followed {
  readonly ended: LetGo["ended"];
  readonly timeS: number;
  readonly steps: number;
  readonly peaks: PeakWatch;
  readonly stories: readonly LineStory[];
  readonly touches: readonly Touch[];
  readonly topSpeedMS: number;
  readonly energy: EnergyBook;
  readonly log: MotionLog;
  readonly mostSamples: number;
}

/** Puts names to what was followed; no answer where a number is none. */
export function tellResult(
  rig: CompiledSystem,
  solids: Readonly<Record<string, Shape>>,
  { peaks, log, stories, mostSamples, ...followed }: Followed,
): LetGo | Unfollowed {
  const [drop, swing] = [peaks.drop(), peaks.swing()];
  const found: LetGo = {
    ok: true,
    ended: followed.ended,
    timeS: followed.timeS,
    steps: followed.steps,
    lines: Object.fromEntries(rig.lines.map((l, k) => [l.name, linePeak(rig, k, peaks, stories[k]!)])),
    nodes: Object.fromEntries([...rig.held].map((n) => [rig.nodeNames[n]!, nodePeak(peaks.node(n))])),
    watched: Object.fromEntries(rig.watches.map(({ name }, w) => [name, nodePeak(peaks.watched(w))])),
    load: {
      dropM: Math.max(0, drop.value),
      lowest: drop.vector,
      swingM: swing.value,
      farthest: swing.vector,
      topSpeedMS: followed.topSpeedMS,
      last: placeOf(rig, rig.load.node),
    },
    touches: followed.touches,
    approaches: approaches(rig, solids, log),
    energy: followed.energy,
    motion: log.thinned(mostSamples, peaks.moments),
  };
  return isAllFinite(found) ? found : { ok: false, code: "not-converged", where: rig.nodeNames[rig.load.node]! };
}

function linePeak(rig: CompiledSystem, k: number, peaks: PeakWatch, story: LineStory): LinePeak {
  const line = rig.lines[k]!;
  const first = peaks.segment(k, 0);
  return {
    peakN: first.value,
    atS: first.atS,
    segmentPeaksN: Array.from(line.chain.tensionN, (_, j) => peaks.segment(k, j).value),
    wasSlack: story.wasSlack,
    paidOutM: paidOut(line, story),
    letGoAtS: story.letGoAtS,
  };
}

const nodePeak = ({ value, vector, atS }: Peak): NodePeak => ({ peakN: value, forceN: vector, atS });

function approaches(
  rig: CompiledSystem,
  solids: Readonly<Record<string, Shape>>,
  log: MotionLog,
): Readonly<Record<string, Approach>> {
  const { halfSizeM } = rig.load;
  const measures = [
    ...rig.stops.flatMap(({ name, faces, nodes }) =>
      faces.length === 1 && nodes?.has(rig.load.node) !== false
        ? [[name, boxToPlane(halfSizeM, faces[0]!)] as const]
        : [],
    ),
    ...Object.entries(solids).map(([name, shape]) => [name, boxToShape(halfSizeM, shape)] as const),
  ];
  if (measures.length === 0) return {};
  const way = log.wayOfLoad();
  return Object.fromEntries(measures.map(([name, measure]) => [name, nearestApproach(way, measure)]));
}

/** Rope let through at the end since the start, m. A brake takes none back; less than none is rounding. */
function paidOut({ chain }: CompiledLine, { startRopeM }: LineStory): number {
  if (chain.end === "fixed") return 0;
  const grown = sum(chain.ropeM) - startRopeM;
  return chain.end === "brake" ? Math.max(0, grown) : grown;
}

const placeOf = ({ positionM }: CompiledSystem, node: number): SiteVector =>
  site(positionM[3 * node]!, positionM[3 * node + 1]!, positionM[3 * node + 2]!);

function isAllFinite(value: unknown): boolean {
  if (typeof value === "number") return Number.isFinite(value);
  if (typeof value !== "object" || value === null) return true;
  if (Array.isArray(value)) {
    for (let i = 0; i < value.length; i++) if (!isAllFinite(value[i])) return false;
    return true;
  }
  for (const name in value) if (!isAllFinite((value as Record<string, unknown>)[name])) return false;
  return true;
}
