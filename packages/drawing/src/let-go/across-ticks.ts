import type { Field } from "../curve/chart.ts";
import type { Primitive } from "../primitives.ts";

/** Ticks with their figures under a chart that does not run over stages: `at` from 0 at its left edge to 1 at its right. */
export const acrossTicks = (
  { plot, sheet }: Field,
  ticks: readonly { readonly at: number; readonly text: string }[],
): readonly Primitive[] =>
  ticks.flatMap(({ at, text }): Primitive[] => {
    const x = plot.leftPx + at * (plot.rightPx - plot.leftPx);
    return [
      {
        kind: "path",
        points: [sheet(x, plot.bottomPx), sheet(x, plot.bottomPx + 4)],
        closed: false,
        style: { stroke: "ink", widthPx: 1 },
      },
      {
        kind: "text",
        at: sheet(x, plot.bottomPx + 4),
        text,
        align: at <= 0 ? "start" : at >= 1 ? "end" : "middle",
        offsetPx: [0, 12],
        sizePx: 11,
        tone: "ink",
      },
    ];
  });
