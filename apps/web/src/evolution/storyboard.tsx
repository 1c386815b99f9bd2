import {
  type Drawing,
  type FrameWords,
  framePicture,
  type StoryboardFrame,
  storyboard,
  storyboardWords,
} from "@gantline/drawing";
import { type Evolution, type Plan, writeAmount } from "@gantline/plan";
import { memo, useMemo, useRef } from "react";
import { StatusSign } from "../ledger/status-sign.tsx";
import { SvgSheet } from "../sheet/svg-sheet.tsx";
import { useSize } from "../sheet/use-size.ts";
import type { Desk } from "../state/desk.ts";
import { useActions, useDesk, useSystem } from "../state/desk-context.tsx";

/** The stages side by side, each a small section to scale at its worst moment, with its critical numbers; touched, that moment is shown. */
export function Storyboard({ plan, evolution }: { readonly plan: Plan; readonly evolution: Evolution }) {
  const system = useSystem();
  const moving = useDesk((desk) => desk.moveBase !== null);
  const words = useMemo(() => storyboardWords(plan, evolution, { system }), [plan, evolution, system]);
  const drawn = useRef<readonly StoryboardFrame[]>([]);
  // While something is dragged the words follow it, and the pictures wait.
  const pictured = useMemo(() => {
    if (!moving || drawn.current.length === 0) drawn.current = storyboard(plan, evolution, { system });
    return drawn.current;
  }, [plan, evolution, system, moving]);
  return (
    <ol className="storyboard" aria-label="Storyboard">
      {words.map((frame, index) => (
        <Frame key={frame.stageId} words={frame} drawing={pictured[index]?.drawing ?? null} />
      ))}
    </ol>
  );
}

interface FrameProps {
  readonly words: FrameWords;
  readonly drawing: Drawing | null;
}

const Frame = memo(function Frame({ words, drawing }: FrameProps) {
  const { number, title, status, worstText, facts, when } = words;
  const actions = useActions();
  const shown = useDesk((desk) => desk.when?.stage === number - 1);
  const goes = useDesk((desk) => worstCutSays(desk, number - 1));
  return (
    <li className={`frame is-${status}`} aria-current={shown ? "step" : undefined}>
      <button type="button" onClick={() => actions.lookAt(when)}>
        <span className="frame-head">
          <span className="frame-number">{number}</span> {title}
        </span>
        <FramePicture drawing={drawing} />
        <span className="frame-worst">
          <StatusSign status={status} /> {worstText}
        </span>
        {facts.map((fact) => (
          <span key={fact} className="frame-fact">
            {fact}
          </span>
        ))}
        {goes !== null && <span className="frame-fact frame-goes">{goes}</span>}
      </button>
    </li>
  );
});

/** Of the stage in which a line's going is worst, that it is; null of the others, and until the plan as it is has been worked through. */
function worstCutSays({ letGo, history, system }: Desk, stage: number): string | null {
  const [worst] = (letGo?.of === history.present && letGo.found?.worst) || [];
  if (worst?.worst.when?.stage !== stage) return null;
  const { figures } = worst.worst;
  const says =
    figures === null
      ? "nothing holds"
      : `${writeAmount({ value: figures.tipN.high, quantity: "force" }, system)} at the tip`;
  return `Worst moment for ${worst.name} to go: ${says}`;
}

const FramePicture = memo(function FramePicture({ drawing }: Pick<FrameProps, "drawing">) {
  const box = useRef<HTMLSpanElement>(null);
  const size = useSize(box);
  const theme = useDesk((desk) => desk.look);
  const picture = useMemo(
    () => (drawing === null || size === null ? null : framePicture(drawing, { ...size, theme })),
    [drawing, size, theme],
  );
  return (
    <span ref={box} aria-hidden="true" className="frame-picture">
      {picture !== null && <SvgSheet tree={picture} />}
    </span>
  );
});
