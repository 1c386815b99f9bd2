import { lazy } from "react";
import { useActions, useDesk } from "../state/desk-context.tsx";
import { PlanName } from "./plan-name.tsx";
import { ToFollow } from "./to-follow.tsx";

const HeadTools = lazy(() => import("./head-tools.tsx"));

/** The head of the sheet, in ruled cells: whose plan it is, the way back and forth, units, look, and the other plans; `rest`: the drawings are there, and what they did not wait for may come. */
export function Header({ rest }: { readonly rest: boolean }) {
  const actions = useActions();
  const canUndo = useDesk((desk) => desk.history.past.length > 0 || desk.moveBase !== null);
  const canRedo = useDesk((desk) => desk.history.future.length > 0);
  return (
    <header className="head">
      <h1 className="wordmark">Gantline</h1>
      <PlanName />
      <div className="head-cell">
        <button type="button" onClick={() => actions.undo()} disabled={!canUndo} title="Ctrl+Z">
          Undo
        </button>
        <button type="button" onClick={() => actions.redo()} disabled={!canRedo} title="Ctrl+Shift+Z">
          Redo
        </button>
      </div>
      <ToFollow may={rest} what="Units, look and plans" place={<ToolsToCome />}>
        <HeadTools />
      </ToFollow>
    </header>
  );
}

/** Holds their place. */
function ToolsToCome() {
  return [["m, kN", "ft, lbf"], ["Day", "Night"], ["Plans"]].map((words) => (
    <div key={words[0]} className="head-cell" aria-hidden="true">
      {words.map((word) => (
        <button key={word} type="button" disabled>
          {word}
        </button>
      ))}
    </div>
  ));
}
