import { drawSection, FEW_WORDS_PRIORITY, fitViewport, svgTree } from "@gantline/drawing";
import {
  type Evolution,
  evaluate,
  momentPlan,
  type Plan,
  type StageResult,
  writeAmount,
  writeRatio,
} from "@gantline/plan";
import { memo, type ReactElement, useMemo, useRef } from "react";
import { STATUS_WORD, StatusSign } from "../ledger/status-sign.tsx";
import { svgElement } from "../sheet/svg-element.tsx";
import { useActions, useDesk, useSystem } from "../state/desk-context.tsx";
import { percentAlong } from "./percent-along.ts";
import { stageStatus } from "./stage-status.ts";

const WIDTH = 190;
const HEIGHT = 210;
const MARGIN = 14;

/** The stages side by side, each a small section to scale at its worst moment, with its critical numbers. */
export function Storyboard({ plan, evolution }: { readonly plan: Plan; readonly evolution: Evolution }) {
  return (
    <ol className="storyboard" aria-label="Storyboard">
      {evolution.stages.map((stage, index) => (
        <Frame key={stage.stage.id} plan={plan} evolution={evolution} result={stage} index={index} />
      ))}
    </ol>
  );
}

interface FrameProps {
  readonly plan: Plan;
  readonly evolution: Evolution;
  readonly result: StageResult;
  readonly index: number;
}

const Frame = memo(function Frame({ plan, evolution, result, index }: FrameProps) {
  const actions = useActions();
  const system = useSystem();
  const look = useDesk((desk) => desk.look);
  const shown = useDesk((desk) => desk.when?.stage === index);
  const { worst, stage } = result;
  const moving = useDesk((desk) => desk.moveBase !== null);
  const drawn = useRef<ReactElement | null>(null);
  // While something is dragged the words follow it, and the pictures wait.
  const picture = useMemo(() => {
    if (moving && drawn.current !== null) return drawn.current;
    const then = momentPlan(plan, worst.when);
    const drawing = drawSection(then, evaluate(then), { system });
    const viewport = fitViewport(drawing.bounds, WIDTH, HEIGHT, MARGIN);
    drawn.current = svgElement(
      svgTree({ ...drawing, primitives: drawing.primitives }, viewport, {
        theme: look,
        leastPriority: FEW_WORDS_PRIORITY + 15,
      }),
    );
    return drawn.current;
  }, [plan, worst.when, system, look, moving]);
  const check = evolution.ledger.find((c) => c.id === worst.checkId);
  const problem = result.problems.length > 0;
  const status = stageStatus(result);
  const tip = figureAt(evolution, "force/tip", result);
  return (
    <li className={`frame is-${status}`} aria-current={shown ? "step" : undefined}>
      <button type="button" onClick={() => actions.lookAt(worst.when)}>
        <span className="frame-head">
          <span className="frame-number">{index + 1}</span> {stage.name}
        </span>
        <span aria-hidden="true" className="frame-picture">
          {picture}
        </span>
        <span className="frame-status">
          <StatusSign status={status} /> {STATUS_WORD[status]}
          {!problem && worst.ratio !== null && ` ${writeRatio(worst.ratio)}`}
        </span>
        <span className="frame-fact">
          {problem ? "Cannot be carried out as written" : `${check?.subject ?? ""}, ${percentAlong(worst.when)}`}
        </span>
        {tip !== null && (
          <span className="frame-fact">Tip, at most {writeAmount({ value: tip, quantity: "force" }, system)}</span>
        )}
      </button>
    </li>
  );
});

/** The largest value of a figure in a stage; null where it has none. */
function figureAt(evolution: Evolution, id: string, { moments: [first, last] }: StageResult): number | null {
  const values = (evolution.series.find((s) => s.id === id)?.values ?? [])
    .slice(first, last + 1)
    .filter((v) => v !== null);
  return values.length > 0 ? Math.max(...values) : null;
}
