import { add, lerp, movedSolid, type SiteVector, subtract } from "@gantline/engine";
import type { Evaluation, LetGoCase, RunningLine } from "@gantline/plan";

type Motion = NonNullable<LetGoCase["motion"]>;

/** A line that pulls less than this hangs loose, N. */
const SLACK_N = 1;

/** Between which samples a time lies, and how far; before the first and after the last as they are. */
function sampleAt({ timesS }: Motion, atS: number): { readonly from: number; readonly part: number } {
  const next = timesS.findIndex((t) => t > atS);
  if (next === 0 || timesS.length < 2) return { from: 0, part: 0 };
  if (next < 0) return { from: timesS.length - 1, part: 0 };
  const [a, b] = [timesS[next - 1] ?? 0, timesS[next] ?? 0];
  return { from: next - 1, part: b > a ? (atS - a) / (b - a) : 0 };
}

/** Where a node is at a time; null: it does not move. */
export function placeAt(motion: Motion, node: string, atS: number): SiteVector | null {
  const { from, part } = sampleAt(motion, atS);
  const places = motion.places[node];
  const a = places?.[from];
  return a === undefined ? null : lerp(a, places?.[from + 1] ?? a, part);
}

/** What has been worked out at each sample, at a time; null: there is nothing. */
export function sampledAt(motion: Motion, values: readonly number[], atS: number): number | null {
  const { from, part } = sampleAt(motion, atS);
  const a = values[from];
  return a === undefined ? null : a + ((values[from + 1] ?? a) - a) * part;
}

/** What a line pulls at the load at a time, N; null: it is not among those left. */
export const tensionAt = (motion: Motion, lineId: string, atS: number): number | null =>
  sampledAt(motion, motion.tensionsN[lineId] ?? [], atS);

/** Until when there is anything to be seen, s; 0: nothing moves. */
export const motionEndS = ({ motion }: LetGoCase): number => motion?.timesS.at(-1) ?? 0;

/**
 * The plan's evaluation as it is to be drawn so long after a line went: the load where it is then, on the lines that are
 * left with what they pull then. Forces, clearances and checks of the plan at rest are left off.
 */
export function replayed(evaluation: Evaluation, { cut, yoke, motion }: LetGoCase, atS: number): Evaluation {
  const now = (motion && placeAt(motion, "yoke", atS)) ?? yoke;
  const rider = motion && placeAt(motion, "rider", atS);
  const by = subtract(now, evaluation.load.yoke);
  const moved = (p: SiteVector): SiteVector => add(p, by);
  const { load, tether } = evaluation;
  return {
    ...evaluation,
    load: {
      ...load,
      wanted: now,
      yoke: now,
      bridleFeet: load.bridleFeet.map(moved),
      box: movedSolid(load.box, by),
    },
    holding: { state: "held" },
    tether:
      tether === null || cut.includes(tether.id)
        ? null
        : { ...tether, pulleyAt: rider ?? tether.pulleyAt, against: null },
    lines: evaluation.lines
      .filter(({ id }) => !cut.includes(id))
      .map((line): RunningLine => {
        const tensionN = motion && tensionAt(motion, line.id, atS);
        const pulls = tensionN === null ? [] : [tensionN];
        return {
          ...line,
          nodes: line.nodes.map((node, i) =>
            i === 0 ? { ...node, at: now } : rider && node.id === "rider" ? { ...node, at: rider } : node,
          ),
          tensionsN: { raise: pulls, lower: pulls },
          slack: tensionN !== null && tensionN < SLACK_N,
        };
      }),
    cases: ["raise"],
    felt: {},
    clearances: [],
    ledger: [],
    worst: { status: "within", ratio: null, checkId: null },
  };
}
