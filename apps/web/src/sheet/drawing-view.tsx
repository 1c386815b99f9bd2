import {
  drawPlan,
  drawSection,
  type Handle,
  panBy,
  SheetMemory,
  svgTree,
  type Viewport,
  type WorldPoint,
  wordsForScale,
  zoomAt,
} from "@gantline/drawing";
import { planSectionFrame, toSection, type View } from "@gantline/plan";
import { type KeyboardEvent, useDeferredValue, useMemo, useRef, useState } from "react";
import { useDesk } from "../state/desk-context.tsx";
import { shownSwept } from "../state/shown-swept.ts";
import { dress, sheetFurniture } from "./dress.ts";
import { HandleButton } from "./handle-button.tsx";
import { markedCheck } from "./marked-check.ts";
import { SvgSheet } from "./svg-sheet.tsx";
import { useGestures } from "./use-gestures.ts";
import { useSize } from "./use-size.ts";
import { useViewport } from "./use-viewport.ts";

const PAN_PX = 40;
/** A smaller sheet keeps its key folded away until it is asked for, px. */
const ROOM_FOR_KEY = { widthPx: 420, heightPx: 600 } as const;

/** One view of the plan, to scale, with the handles that move things in it. */
export function DrawingView({ view }: { readonly view: View }) {
  const { plan, when, letOutLineId, evaluation, marked, swept, busy } = useShownNow(view);
  const system = useDesk((desk) => desk.system);
  const look = useDesk((desk) => desk.look);
  const planId = useDesk((desk) => desk.planId);
  const frame = useRef<HTMLDivElement>(null);
  const size = useSize(frame);
  const instead = useDesk((desk) => desk.drawnInstead);
  const own = useMemo(
    () =>
      (view === "section" ? drawSection : drawPlan)(plan, evaluation, {
        system,
        swept,
        letOut: letOutLineId,
        marked,
        ...(when === null ? {} : { evolution: when }),
      }),
    [view, plan, when, evaluation, swept, letOutLineId, marked, system],
  );
  const drawing = instead?.drawings[view] ?? own;
  const { viewport, show, fit } = useViewport(drawing, size, `${planId} ${instead?.fitKey ?? ""}`);

  /** The ladder is drawn with its sag; the pose is set without it. */
  const aim = (handle: Handle, drawn: WorldPoint): WorldPoint => {
    if (handle.id !== "tip") return drawn;
    const { posed, unloadedTip } = evaluation.geometry;
    const sag = ([0, 1, 2] as const).map((axis) => unloadedTip[axis] - posed.tip[axis]) as [number, number, number];
    if (view === "plan") return [drawn[0] + sag[0], drawn[1] + sag[1]];
    const across = toSection({ ...planSectionFrame(plan), originX: 0, originY: 0 }, sag);
    return [drawn[0] + across.acrossM, drawn[1] + across.upM];
  };

  const [keyChosen, chooseKey] = useState<boolean | null>(null);
  const shownKey =
    keyChosen ?? (size !== null && size.widthPx >= ROOM_FOR_KEY.widthPx && size.heightPx >= ROOM_FOR_KEY.heightPx);
  const gestures = useGestures({ view, element: frame, viewport, handles: drawing.handles, show, aim });
  const [memory] = useState(() => new SheetMemory());
  const furniture = useMemo(
    () => (viewport === null ? null : sheetFurniture(drawing.id, viewport, system)),
    [drawing.id, viewport, system],
  );
  const sheet = useMemo(() => {
    if (viewport === null || furniture === null) return null;
    const leastPriority = wordsForScale(viewport);
    const grips = drawing.handles.map(({ at }) => at);
    const dressed = dress(drawing, viewport, system, shownKey, furniture);
    return svgTree(dressed, viewport, { theme: look, leastPriority, grips }, memory);
  }, [drawing, viewport, furniture, look, system, shownKey, memory]);

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.target !== event.currentTarget || event.ctrlKey || event.metaKey) return;
    const next = keyed(event.key);
    if (next === null && event.key !== "0") return;
    event.preventDefault();
    if (next === null) fit();
    else show(next);
  };

  return (
    <section className={`drawing is-${view}`} aria-label={drawing.title} aria-busy={busy}>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset is a form's; this holds a drawing and what moves in it */}
      <div
        className="drawing-frame"
        ref={frame}
        role="group"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the drawing itself is moved and enlarged by keys
        tabIndex={0}
        aria-label={`${drawing.title}: plus and minus enlarge, arrows move, zero shows all`}
        onKeyDown={onKeyDown}
        {...gestures}
      >
        {sheet !== null && <SvgSheet tree={sheet} />}
        {viewport !== null &&
          drawing.handles.map((handle) => (
            <HandleButton key={handle.id} view={view} handle={handle} viewport={viewport} aim={aim} />
          ))}
      </div>
      <div className="drawing-foot">
        <h2>{drawing.title}</h2>
        <div className="drawing-tools">
          <button type="button" aria-pressed={shownKey} onClick={() => chooseKey(!shownKey)}>
            Key
          </button>
          <button
            type="button"
            aria-label="Enlarge"
            onClick={() => show((now) => zoomAt(now, [now.widthPx / 2, now.heightPx / 2], 1.3))}
          >
            +
          </button>
          <button
            type="button"
            aria-label="Make smaller"
            onClick={() => show((now) => zoomAt(now, [now.widthPx / 2, now.heightPx / 2], 1 / 1.3))}
          >
            −
          </button>
          <button type="button" title="Show all" onClick={fit}>
            Fit
          </button>
        </div>
      </div>
    </section>
  );
}

/** What is drawn: now, or, in the drawing that nothing is moved in, as soon as the other one has followed. Without a hand the section comes first. */
function useShownNow(view: View) {
  const plan = useDesk((desk) => desk.shownPlan);
  const when = useDesk((desk) => desk.when);
  const letOutLineId = useDesk((desk) => desk.letOutLineId);
  const evaluation = useDesk((desk) => desk.evaluation);
  const marked = useDesk(markedCheck);
  const swept = useDesk(shownSwept);
  const first = useDesk((desk) => (desk.moveView ?? "section") === view);
  const now = useMemo(
    () => ({ plan, when, letOutLineId, evaluation, marked, swept }),
    [plan, when, letOutLineId, evaluation, marked, swept],
  );
  const after = useDeferredValue(now);
  return first ? { ...now, busy: false } : { ...after, busy: after !== now };
}

/** What a key does to the viewport; null: nothing. */
function keyed(key: string): ((now: Viewport) => Viewport) | null {
  const about = (factor: number) => (now: Viewport) => zoomAt(now, [now.widthPx / 2, now.heightPx / 2], factor);
  switch (key) {
    case "+":
    case "=":
      return about(1.25);
    case "-":
    case "−":
      return about(1 / 1.25);
    case "ArrowLeft":
      return (now) => panBy(now, PAN_PX, 0);
    case "ArrowRight":
      return (now) => panBy(now, -PAN_PX, 0);
    case "ArrowUp":
      return (now) => panBy(now, 0, PAN_PX);
    case "ArrowDown":
      return (now) => panBy(now, 0, -PAN_PX);
    default:
      return null;
  }
}
