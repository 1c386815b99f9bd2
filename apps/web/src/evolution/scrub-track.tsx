import type { Evolution, Series } from "@gantline/plan";
import { type KeyboardEvent, type PointerEvent, useMemo, useRef } from "react";
import { nextFrame } from "../sheet/next-frame.ts";
import { useSize } from "../sheet/use-size.ts";
import { Curve } from "./curve.tsx";

/** Of a stage: one press of an arrow key, and with shift. */
const STEP = 0.02;
const LONG_STEP = 0.1;

interface Props {
  readonly evolution: Evolution;
  readonly series: Series;
  /** Where it is now, 0 to 1; null: at no moment. */
  readonly at: number | null;
  readonly says: string;
  readonly show: (place: number) => void;
}

/** The curve itself as a slider: pressed or drawn along it, everything moves to that moment; arrows step, page keys go from stage to stage. */
export function ScrubTrack({ evolution, series, at, says, show }: Props) {
  const track = useRef<HTMLDivElement>(null);
  const curve = useRef<HTMLDivElement>(null);
  const size = useSize(curve);
  const frame = useMemo(nextFrame, []);
  const held = useRef<{ readonly left: number; readonly width: number } | null>(null);
  const count = evolution.stages.length;

  const follow = (event: PointerEvent) => {
    if (held.current === null) return;
    const { left, width } = held.current;
    const place = Math.min(1, Math.max(0, (event.clientX - left) / width));
    frame.run(() => show(place));
  };
  const onPointerDown = (event: PointerEvent<HTMLElement>) => {
    if (track.current === null || curve.current === null || (event.pointerType === "mouse" && event.button !== 0))
      return;
    const { left, width } = curve.current.getBoundingClientRect();
    held.current = { left, width };
    track.current.setPointerCapture(event.pointerId);
    follow(event);
  };
  const letGo = () => {
    frame.finish();
    held.current = null;
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const next = keyed(event.key, event.shiftKey, at ?? 0, count);
    if (next === null) return;
    event.preventDefault();
    show(Math.min(1, Math.max(0, next)));
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
      aria-valuenow={Math.round((at ?? 0) * 1000) / 10}
      aria-valuetext={says}
      onKeyDown={onKeyDown}
      onPointerDown={onPointerDown}
      onPointerMove={follow}
      onPointerUp={letGo}
      onPointerCancel={letGo}
      onLostPointerCapture={letGo}
    >
      <div ref={curve} className="curve-frame">
        {size !== null && <Curve evolution={evolution} series={series} {...size} />}
      </div>
      <div className="scrub-rail" />
      <div className={`scrub-now${at === null ? " is-waiting" : ""}`} style={{ left: `${(at ?? 0) * 100}%` }}>
        <span className="scrub-knob" />
      </div>
    </div>
  );
}

/** Where a key leads, of the whole evolution; null: nowhere. */
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
