import {
  type Handle,
  panBy,
  screenToWorld,
  type Viewport,
  type WorldPoint,
  worldToScreen,
  zoomAt,
} from "@gantline/drawing";
import { moveHandle, type Plan, type View } from "@gantline/plan";
import { type PointerEvent, type RefObject, useEffect, useMemo, useRef } from "react";
import { useBench } from "../state/desk-context.tsx";
import { nextFrame } from "./next-frame.ts";

/** A finger this near a handle takes it, px. */
const GRASP_PX = 28;

type Place = readonly [number, number];

interface Gesture {
  readonly pointers: Map<number, Place>;
  /** Where the sheet's corner was when the first finger came down: asking again at each move would force a layout. */
  corner: Place;
  /** A handle in hand: where it and the finger were, and the plan, when it was taken. */
  held: {
    readonly handle: Handle;
    readonly pointer: number;
    readonly from: WorldPoint;
    readonly at: WorldPoint;
    readonly base: Plan;
  } | null;
}

interface Sheet {
  readonly view: View;
  readonly element: RefObject<HTMLElement | null>;
  readonly viewport: Viewport | null;
  readonly handles: readonly Handle[];
  readonly show: (next: (now: Viewport) => Viewport) => void;
  /** Where a handle is to be sent so that it is drawn at a place. */
  readonly aim: (handle: Handle, drawn: WorldPoint) => WorldPoint;
}

/** Mouse, touch and pen on a drawing: one finger on a handle moves it, elsewhere pans; two fingers enlarge; the wheel enlarges at the pointer. */
export function useGestures(sheet: Sheet) {
  const { actions, store } = useBench();
  const latest = useRef(sheet);
  latest.current = sheet;
  const gesture = useRef<Gesture>({ pointers: new Map(), corner: [0, 0], held: null });
  const frame = useMemo(nextFrame, []);

  useEffect(() => {
    const element = sheet.element.current;
    if (element === null) return;
    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      const at = placeFrom(cornerOf(element), event);
      const lines = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 : 1;
      latest.current.show((now) => zoomAt(now, at, Math.exp((-event.deltaY * lines) / 400)));
    };
    element.addEventListener("wheel", onWheel, { passive: false });
    return () => element.removeEventListener("wheel", onWheel);
  }, [sheet.element]);

  const onPointerDown = (event: PointerEvent<HTMLElement>) => {
    const { viewport, handles, element } = latest.current;
    if (viewport === null || element.current === null || (event.pointerType === "mouse" && event.button !== 0)) return;
    const { pointers } = gesture.current;
    if (pointers.size === 0) gesture.current.corner = cornerOf(element.current);
    const at = placeFrom(gesture.current.corner, event);
    pointers.set(event.pointerId, at);
    element.current.setPointerCapture(event.pointerId);
    if (pointers.size > 1) {
      letGo();
      return;
    }
    const handle = nearest(handles, viewport, at);
    if (handle === null) return;
    event.preventDefault();
    element.current
      .querySelector<HTMLElement>(`[data-handle="${CSS.escape(handle.id)}"]`)
      ?.focus({ preventScroll: true });
    actions.beginMove(latest.current.view);
    gesture.current.held = {
      handle,
      pointer: event.pointerId,
      from: screenToWorld(viewport, at),
      at: handle.at,
      base: store.getState().history.present,
    };
  };

  const onPointerMove = (event: PointerEvent<HTMLElement>) => {
    const { pointers, held } = gesture.current;
    const { viewport, show, view, aim, element } = latest.current;
    const before = pointers.get(event.pointerId);
    if (before === undefined || viewport === null || element.current === null) return;
    const at = placeFrom(gesture.current.corner, event);
    if (held?.pointer === event.pointerId) {
      const [x, y] = screenToWorld(viewport, at);
      const to = aim(held.handle, [held.at[0] + x - held.from[0], held.at[1] + y - held.from[1]]);
      pointers.set(event.pointerId, at);
      frame.run(() => actions.moveTo(() => moveHandle(held.base, view, held.handle.id, to, store.getState().when)));
      return;
    }
    const other = [...pointers].find(([id]) => id !== event.pointerId)?.[1];
    pointers.set(event.pointerId, at);
    show((now) =>
      other === undefined ? panBy(now, at[0] - before[0], at[1] - before[1]) : pinched(now, before, at, other),
    );
  };

  const letGo = () => {
    if (gesture.current.held === null) return;
    frame.finish();
    gesture.current.held = null;
    actions.endMove();
  };

  const onPointerEnd = (event: PointerEvent<HTMLElement>) => {
    gesture.current.pointers.delete(event.pointerId);
    if (gesture.current.held?.pointer === event.pointerId) letGo();
  };

  return {
    onPointerDown,
    onPointerMove,
    onPointerUp: onPointerEnd,
    onPointerCancel: onPointerEnd,
    onLostPointerCapture: onPointerEnd,
  };
}

function cornerOf(element: HTMLElement): Place {
  const { left, top } = element.getBoundingClientRect();
  return [left + element.clientLeft, top + element.clientTop];
}

const placeFrom = (corner: Place, event: { readonly clientX: number; readonly clientY: number }): Place => [
  event.clientX - corner[0],
  event.clientY - corner[1],
];

function nearest(handles: readonly Handle[], viewport: Viewport, [x, y]: Place): Handle | null {
  let found: Handle | null = null;
  let least = GRASP_PX;
  for (const handle of handles) {
    const [hx, hy] = worldToScreen(viewport, handle.at);
    const away = Math.hypot(hx - x, hy - y);
    if (away < least) [found, least] = [handle, away];
  }
  return found;
}

/** Two fingers: what lies between them stays between them. */
function pinched(viewport: Viewport, before: Place, after: Place, other: Place): Viewport {
  const spread = (p: Place) => Math.max(1, Math.hypot(p[0] - other[0], p[1] - other[1]));
  const middle = (p: Place): Place => [(p[0] + other[0]) / 2, (p[1] + other[1]) / 2];
  const [from, to] = [middle(before), middle(after)];
  return panBy(zoomAt(viewport, from, spread(after) / spread(before)), to[0] - from[0], to[1] - from[1]);
}
