import type { Handle, Viewport } from "@gantline/drawing";
import { worldToScreen } from "@gantline/drawing";
import { moveHandle, type View } from "@gantline/plan";
import type { KeyboardEvent } from "react";
import { useActions, useDesk } from "../state/desk-context.tsx";

/** One press of an arrow key, m; with shift ten times, with alt a tenth. */
const STEP_M = 0.1;
const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

interface Props {
  readonly view: View;
  readonly handle: Handle;
  readonly viewport: Viewport;
  readonly aim: (handle: Handle, drawn: readonly [number, number]) => readonly [number, number];
}

/** A handle that the keyboard and a screen reader can reach; fingers and mouse are `useGestures`' work. */
export function HandleButton({ view, handle, viewport, aim }: Props) {
  const actions = useActions();
  const when = useDesk((desk) => desk.when);
  const [left, top] = worldToScreen(viewport, handle.at);
  const { widthPx, heightPx } = viewport;
  const outside = left < 0 || top < 0 || left > widthPx || top > heightPx;

  const onKeyDown = (event: KeyboardEvent) => {
    const arrow = ARROWS[event.key];
    if (event.key === "Escape") actions.abandonMove();
    if (arrow === undefined || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    event.stopPropagation();
    const step = STEP_M * (event.shiftKey ? 10 : event.altKey ? 0.1 : 1);
    const to = aim(handle, [handle.at[0] + arrow[0] * step, handle.at[1] + arrow[1] * step]);
    actions.beginMove(view);
    actions.moveTo((plan) => moveHandle(plan, view, handle.id, to, when));
  };

  return (
    <div
      className={`handle is-${handle.id.split(":", 1)[0]}${outside ? " is-outside" : ""}`}
      style={{ left: clamp(left, widthPx), top: clamp(top, heightPx) }}
      data-handle={handle.id}
      role="slider"
      tabIndex={0}
      aria-label={handle.label}
      aria-valuenow={Math.round(handle.at[0] * 100) / 100}
      aria-valuetext={handle.valueText}
      aria-describedby="handle-help"
      onKeyDown={onKeyDown}
      onKeyUp={() => actions.endMove()}
      onBlur={() => actions.endMove()}
    >
      <span className="handle-ring" />
    </div>
  );
}

/** Handles out of sight wait at the edge they lie beyond, so that the keyboard still finds them. */
const clamp = (px: number, most: number): number => Math.min(Math.max(px, 0), most);
