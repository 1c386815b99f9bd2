import { screenToWorld, svgTree, type Viewport, wordsForScale, zoomAt } from "@gantline/drawing";
import { type KeyboardEvent, type PointerEvent, useMemo, useRef } from "react";
import { dress } from "../sheet/dress.ts";
import { SvgSheet } from "../sheet/svg-sheet.tsx";
import { useGestures } from "../sheet/use-gestures.ts";
import { useSize } from "../sheet/use-size.ts";
import { useViewport } from "../sheet/use-viewport.ts";
import { useDesk, useSystem } from "../state/desk-context.tsx";
import { PlaceMark } from "./place-mark.tsx";
import { useMapDrawing } from "./use-map-drawing.ts";
import { useStand, useStandActions } from "./use-stand.ts";

/** A finger that moves less than this taps, px. */
const TAP_PX = 9;
/** The tools lie over the foot of the map. */
const TOOLS_PX = 46;
const NO_HANDLES = [] as const;

/** The map of turntable places: drawn about and enlarged like the other drawings; a touch asks about a place. */
export function StandMap() {
  const actions = useStandActions();
  const system = useSystem();
  const look = useDesk((desk) => desk.look);
  const planId = useDesk((desk) => desk.planId);
  const cell = useStand((desk) => desk.cell);
  const frame = useRef<HTMLDivElement>(null);
  const size = useSize(frame);
  const { drawing, cells } = useMapDrawing();
  const { viewport, show, fit } = useViewport(drawing, size, `${planId} ${cells.grid.columns > 0}`);
  const gestures = useGestures({
    view: "plan",
    element: frame,
    viewport,
    handles: NO_HANDLES,
    show,
    aim: (_, drawn) => drawn,
  });
  const sheet = useMemo(
    () =>
      viewport === null
        ? null
        : svgTree(dress({ ...drawing, wind: null }, viewport, system, false), viewport, {
            theme: look,
            footPx: TOOLS_PX,
            leastPriority: wordsForScale(viewport),
          }),
    [drawing, viewport, look, system],
  );

  const down = useRef<readonly [number, number] | null>(null);
  const onPointerDown = (event: PointerEvent<HTMLDivElement>) => {
    down.current = event.isPrimary ? [event.clientX, event.clientY] : null;
    gestures.onPointerDown(event);
  };
  const onPointerUp = (event: PointerEvent<HTMLDivElement>) => {
    gestures.onPointerUp(event);
    const from = down.current;
    down.current = null;
    if (from === null || viewport === null || frame.current === null) return;
    if (Math.hypot(event.clientX - from[0], event.clientY - from[1]) > TAP_PX) return;
    const { left, top } = frame.current.getBoundingClientRect();
    const found = cellUnder(cells.grid, screenToWorld(viewport, [event.clientX - left, event.clientY - top]));
    if (found === null) return;
    actions.lookAt(found);
    frame.current.querySelector<HTMLElement>(".place-mark")?.focus({ preventScroll: true });
  };
  const enlarge = (factor: number) => show((now) => zoomAt(now, middleOf(now), factor));
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey) return;
    const act = { "+": () => enlarge(1.25), "=": () => enlarge(1.25), "-": () => enlarge(0.8), "0": fit }[event.key];
    if (act === undefined) return;
    event.preventDefault();
    act();
  };

  return (
    <section className="drawing where-map" aria-label={drawing.title}>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset is a form's; this holds a map and the place asked about */}
      <div
        className="drawing-frame"
        ref={frame}
        role="group"
        aria-label="Map: plus and minus enlarge, zero shows all; the place looked at is moved by the arrows"
        onKeyDown={onKeyDown}
        {...gestures}
        onPointerDown={onPointerDown}
        onPointerUp={onPointerUp}
      >
        {sheet !== null && <SvgSheet tree={sheet} />}
        {viewport !== null && cells.grid.columns > 0 && <PlaceMark cells={cells} cell={cell} viewport={viewport} />}
      </div>
      <div className="drawing-foot">
        <h2>Where to stand</h2>
        <div className="drawing-tools">
          <button type="button" aria-label="Enlarge the map" onClick={() => enlarge(1.3)}>
            +
          </button>
          <button type="button" aria-label="Make the map smaller" onClick={() => enlarge(1 / 1.3)}>
            −
          </button>
          <button type="button" title="Show all of the map" onClick={fit}>
            Fit
          </button>
        </div>
      </div>
    </section>
  );
}

const middleOf = ({ widthPx, heightPx }: Viewport) => [widthPx / 2, heightPx / 2] as const;

function cellUnder(
  {
    westM,
    southM,
    cellM,
    columns,
    rows,
  }: { westM: number; southM: number; cellM: number; columns: number; rows: number },
  [x, y]: readonly [number, number],
): number | null {
  const column = Math.floor((x - westM) / cellM);
  const row = Math.floor((y - southM) / cellM);
  return column < 0 || row < 0 || column >= columns || row >= rows ? null : row * columns + column;
}
