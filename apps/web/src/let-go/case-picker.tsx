import { MomentName } from "../evolution/moment-name.tsx";
import { useActions, useDesk, usePlan } from "../state/desk-context.tsx";
import { canGive } from "../state/tip-gives.ts";
import type { PlanLine } from "./use-case.ts";
import { useLetGo, useLetGoActions } from "./use-let-go.ts";

interface Props {
  readonly line: PlanLine | null;
  readonly lines: readonly PlanLine[];
}

/** Which line goes; and whether, and how, the drawings show it. */
export function CasePicker({ line, lines }: Props) {
  const actions = useLetGoActions();
  const drawn = useLetGo((desk) => desk.drawn);
  const near = useLetGo((desk) => desk.near);
  const desk = useActions();
  const tipGives = useDesk((one) => one.tipGives);
  const sections = usePlan(canGive);
  return (
    <div className="case-picker">
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset is a form's */}
      <div className="case-lines" role="group" aria-label="The line that goes">
        <span className="case-word">Let go of</span>
        {lines.map(({ id, name }) => (
          <button key={id} type="button" aria-pressed={id === line?.id} onClick={() => actions.choose(id)}>
            {name}
          </button>
        ))}
      </div>
      <p className="case-moment">
        <MomentName />
        {tipGives &&
          sections &&
          ". The tip gives as the ladder's sections do, in all that is worked out here, and in the ledger where a line goes."}
      </p>
      <div className="case-drawn">
        <button type="button" aria-pressed={drawn} onClick={() => actions.draw(!drawn)}>
          On the drawings
        </button>
        <button type="button" aria-pressed={near} disabled={!drawn} onClick={() => actions.goNear(!near)}>
          Near the load
        </button>
        {sections && (
          <button type="button" aria-pressed={tipGives} onClick={() => desk.letTipGive(!tipGives)}>
            Let the tip give
          </button>
        )}
      </div>
    </div>
  );
}
