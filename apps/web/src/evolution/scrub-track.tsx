import { type Chart, type CurveOptions, shareAt, svgChart, whenAt, whenThrough, xAt } from "@gantline/drawing";
import type { Evolution, When } from "@gantline/plan";
import { type KeyboardEvent, type PointerEvent, useMemo, useRef } from "react";
import { nextFrame } from "../sheet/next-frame.ts";
import { SvgSheet } from "../sheet/svg-sheet.tsx";
import { useSize } from "../sheet/use-size.ts";
import { useDesk, useSystem } from "../state/desk-context.tsx";

/** Of a stage: one press of an arrow key, and with shift. */
const STEP = 0.02;
const LONG_STEP = 0.1;

interface Props {
  readonly evolution: Evolution;
  /** The curve of the figure that is looked at. */
  readonly draw: (options: CurveOptions) => Chart;
  /** null: no moment is looked at. */
  readonly when: When | null;
  readonly says: string;
  readonly show: (when: When) => void;
}

/** The curve itself as a slider: pressed or drawn along it, everything moves to that moment; arrows step, page keys go from stage to stage. */
export function ScrubTrack({ evolution, draw, when, says, show }: Props) {
  const track = useRef<HTMLDivElement>(null);
  const size = useSize(track);
  const frame = useMemo(nextFrame, []);
  /** Where the sheet's left edge was when the finger came down, px. */
  const held = useRef<number | null>(null);
  const system = useSystem();
  const look = useDesk((desk) => desk.look);
  const chart = useMemo(
    () => (size === null ? null : draw({ ...size, heightPx: size.heightPx - RAIL_PX, system })),
    [draw, size, system],
  );
  const drawn = useMemo(() => (chart === null ? null : svgChart(chart, { theme: look })), [chart, look]);
  const at = when === null ? 0 : shareAt(evolution, when);

  const go = (next: When | null) => {
    if (next !== null) show(next);
  };
  const follow = ({ clientX }: PointerEvent) => {
    const left = held.current;
    if (left !== null && chart !== null) frame.run(() => go(whenAt(evolution, chart.plot, clientX - left)));
  };
  const onPointerDown = (event: PointerEvent<HTMLElement>) => {
    if (event.pointerType === "mouse" && event.button !== 0) return;
    held.current = event.currentTarget.getBoundingClientRect().left + event.currentTarget.clientLeft;
    event.currentTarget.setPointerCapture(event.pointerId);
    follow(event);
  };
  const letGo = () => {
    frame.finish();
    held.current = null;
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const next = keyed(event.key, event.shiftKey, at, evolution.stages.length);
    if (next === null) return;
    event.preventDefault();
    go(whenThrough(evolution, next));
  };
  return (
    <div
      ref={track}
      className="scrub-track"
      role="slider"
      tabIndex={0}
      aria-label="Moment of the evolution"
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={Math.round(at * 1000) / 10}
      aria-valuetext={says}
      onKeyDown={onKeyDown}
      onPointerDown={onPointerDown}
      onPointerMove={follow}
      onPointerUp={letGo}
      onPointerCancel={letGo}
      onLostPointerCapture={letGo}
    >
      {drawn !== null && <SvgSheet tree={drawn} />}
      {chart !== null && (
        <>
          <div
            className="scrub-rail"
            style={{ left: chart.plot.leftPx, width: chart.plot.rightPx - chart.plot.leftPx, height: RAIL_PX }}
          />
          <div
            className={`scrub-now${when === null ? " is-waiting" : ""}`}
            style={{ left: xAt(evolution, chart.plot, when ?? { stage: 0, along: 0 }), top: chart.plot.topPx }}
          >
            <span className="scrub-knob" />
          </div>
        </>
      )}
    </div>
  );
}

/** The rail under the curve is as high as a finger needs, px. */
const RAIL_PX = 44;

/** Where a key leads, of the whole evolution, 0 to 1; null: nowhere. Beyond its ends is the end. */
function keyed(key: string, long: boolean, at: number, count: number): number | null {
  const step = (long ? LONG_STEP : STEP) / count;
  const stages = at * count;
  switch (key) {
    case "ArrowRight":
    case "ArrowUp":
      return at + step;
    case "ArrowLeft":
    case "ArrowDown":
      return at - step;
    case "PageDown":
      return (Math.floor(stages + 1e-9) + 1) / count;
    case "PageUp":
      return (Math.ceil(stages - 1e-9) - 1) / count;
    case "Home":
      return 0;
    case "End":
      return 1;
    default:
      return null;
  }
}
