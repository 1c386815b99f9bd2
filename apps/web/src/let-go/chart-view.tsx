import { type Chart, svgChart } from "@gantline/drawing";
import { useRef } from "react";
import { SvgSheet } from "../sheet/svg-sheet.tsx";
import { type Size, useSize } from "../sheet/use-size.ts";
import { useDesk } from "../state/desk-context.tsx";

/** A chart as large as its place. */
export function ChartView({
  draw,
  tall = false,
}: {
  readonly draw: (size: Size) => Chart | null;
  readonly tall?: boolean;
}) {
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const theme = useDesk((desk) => desk.look);
  const chart = size === null ? null : draw(size);
  return (
    <div ref={box} className={`chart${tall ? " is-tall" : ""}`}>
      {chart !== null && <SvgSheet tree={svgChart(chart, { theme })} />}
    </div>
  );
}
