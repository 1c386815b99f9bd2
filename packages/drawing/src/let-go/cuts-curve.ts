import type { Evolution, LetGoEvolution, SweptCut } from "@gantline/plan";
import { writeAmount } from "@gantline/plan";
import { axisFor } from "../curve/axis-ticks.ts";
import { type Chart, type CurveOptions, chartField, drawField, drawNow, type Field, ticksFor } from "../curve/chart.ts";
import { runsOf } from "../curve/runs-of.ts";
import { shareAt } from "../curve/scrub.ts";
import type { Primitive, WorldPoint } from "../primitives.ts";
import { stageAndPercent } from "../shared/moment-text.ts";
import { ropeLooks } from "../shared/rope-look.ts";
import { shortened } from "../shared/write.ts";

/** A line of the plan, as far as its look goes. */
interface Line {
  readonly id: string;
  readonly name: string;
  readonly role: "main" | "tagline" | "tether";
}

const MOST_TICKS = 5;
/** A value with no neighbour is drawn this long, px. */
const ALONE_PX = 5;

/**
 * At every moment of the evolution: the highest force at the tip when one line goes, a curve for each line in its own look,
 * the highest of all ringed. Where nothing holds the load a curve is open, with
 * crosses along the chart's upper edge.
 */
export function cutsCurve(
  evolution: Evolution,
  { cuts }: Pick<LetGoEvolution, "cuts">,
  lines: readonly Line[],
  options: CurveOptions,
): Chart {
  const { system, heightPx, now } = options;
  const looks = ropeLooks(lines);
  const known = cuts.flatMap(({ tipN }) => (tipN === null ? [] : [tipN]));
  const axis = axisFor([0, ...known], "force", system, ticksFor(heightPx, MOST_TICKS));
  const field = chartField(evolution, options, axis);
  const title = `Highest force at the tip when a line goes${restsOnBrakes(cuts)}, ${axis.unit}`;
  const worst = highestCut(cuts);
  const nameOf = (id: string): string => lines.find((line) => line.id === id)?.name ?? id;
  return {
    title,
    description: describe(cuts, worst, nameOf, options),
    viewport: field.viewport,
    plot: field.plot,
    primitives: [
      ...drawField(evolution, field, title),
      ...lines.flatMap(({ id, name }): Primitive[] => {
        const own = cuts.filter(({ lineId }) => lineId === id);
        const style = looks.get(id)?.style ?? { stroke: "ink" as const, widthPx: 2 };
        const parts = curveParts(own, field);
        const falls = own.filter(({ outcome }) => outcome === "falls").map(({ at }) => field.point(at, axis.high));
        return [
          ...(parts.length > 0 ? [{ kind: "paths", parts, closed: false, style, title: `${name} goes` } as const] : []),
          ...falls.map(
            (at): Primitive => ({
              kind: "mark",
              at,
              shape: "cross",
              sizePx: 9,
              style: { stroke: "over", widthPx: 2 },
              title: `${name} goes: nothing holds`,
            }),
          ),
        ];
      }),
      ...(worst ? drawWorst(worst, nameOf(worst.lineId), field, options) : []),
      ...(now && evolution.stages.length > 0 ? drawNow(field, shareAt(evolution, now), stageAndPercent(now)) : []),
    ],
  };
}

/** Held fast for want of their slip force, brakes give an upper figure. */
const restsOnBrakes = (cuts: readonly SweptCut[]): string =>
  cuts.some(({ slipUnknown }) => slipUnknown.length > 0) ? " if no brake slips" : "";

/** The cut that bears hardest on the tip; null: none is known. */
const highestCut = (cuts: readonly SweptCut[]): SweptCut | null =>
  cuts.reduce<SweptCut | null>((best, c) => (c.tipN !== null && c.tipN > (best?.tipN ?? 0) ? c : best), null);

/** One line's values, open where they are not known and from stage to stage. */
function curveParts(own: readonly SweptCut[], field: Field): readonly (readonly WorldPoint[])[] {
  const joined = runsOf(own, (a, b) => a.when.stage === b.when.stage && (a.tipN === null) === (b.tipN === null));
  return joined.flatMap(([first, last]) => {
    const points = own
      .slice(first, last + 1)
      .flatMap(({ at, tipN }): WorldPoint[] => (tipN === null ? [] : [field.point(at, tipN)]));
    const [only] = points;
    if (!only) return [];
    return [
      points.length > 1
        ? points
        : [[only[0] - ALONE_PX / 2, only[1]] as const, [only[0] + ALONE_PX / 2, only[1]] as const],
    ];
  });
}

function drawWorst({ at, tipN }: SweptCut, name: string, field: Field, { system }: CurveOptions): readonly Primitive[] {
  const place = field.point(at, tipN ?? 0);
  const late = at > 0.5;
  return [
    {
      kind: "mark",
      at: place,
      shape: "ring",
      sizePx: 10,
      style: { stroke: "ink", fill: "paper", widthPx: 1.8 },
      title: "Highest",
    },
    {
      kind: "text",
      at: place,
      text: `${writeAmount({ value: tipN ?? 0, quantity: "force" }, system)}, ${shortened(name, 30)} goes`,
      align: late ? "end" : "start",
      offsetPx: [late ? -10 : 10, 15],
      sizePx: 12,
      weight: "strong",
      tone: "ink",
      halo: true,
      label: { priority: 95, keep: true },
    },
  ];
}

function describe(
  cuts: readonly SweptCut[],
  worst: SweptCut | null,
  nameOf: (id: string) => string,
  { system }: CurveOptions,
): string {
  const falls = cuts.filter(({ outcome }) => outcome === "falls").length;
  const highest = worst
    ? `highest ${writeAmount({ value: worst.tipN ?? 0, quantity: "force" }, system)}, when ${nameOf(worst.lineId)} goes in ${stageAndPercent(worst.when)}`
    : "no figure is known";
  return `Force at the tip when a line goes, ${cuts.length} cuts: ${highest}${restsOnBrakes(cuts)}.${falls > 0 ? ` In ${falls} of them nothing holds.` : ""}`;
}
