import type { SvgNode } from "../render/svg-node.ts";
import { type SvgOptions, svgTree } from "../to-svg.ts";
import type { Chart } from "./chart.ts";

/** A curve as a tree of SVG elements; its labels keep out of the stage names above it and the line of text under it. */
export function svgChart(chart: Chart, options: SvgOptions = {}): SvgNode {
  const { plot, viewport } = chart;
  return svgTree(chart, viewport, {
    ...options,
    headPx: plot.topPx - 2,
    footPx: viewport.heightPx - plot.bottomPx - 1,
  });
}
