import { ToggleButton, ToggleButtonGroup } from "react-aria-components";
import { useActions, useDesk } from "../state/desk-context.tsx";
import { PlanName } from "./plan-name.tsx";
import { PlansMenu } from "./plans-menu.tsx";

/** The head of the sheet, in ruled cells: whose plan it is, the way back and forth, units, look, and the other plans. */
export function Header() {
  const actions = useActions();
  const canUndo = useDesk((desk) => desk.history.past.length > 0 || desk.moveBase !== null);
  const canRedo = useDesk((desk) => desk.history.future.length > 0);
  const system = useDesk((desk) => desk.system);
  const look = useDesk((desk) => desk.look);
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
      <ToggleButtonGroup
        className="head-cell"
        aria-label="Units"
        selectionMode="single"
        disallowEmptySelection
        selectedKeys={[system]}
        onSelectionChange={(keys) => actions.setSystem(keys.has("imperial") ? "imperial" : "metric")}
      >
        <ToggleButton id="metric">m, kN</ToggleButton>
        <ToggleButton id="imperial">ft, lbf</ToggleButton>
      </ToggleButtonGroup>
      <ToggleButtonGroup
        className="head-cell"
        aria-label="Look"
        selectionMode="single"
        disallowEmptySelection
        selectedKeys={[look]}
        onSelectionChange={(keys) => actions.setLook(keys.has("night") ? "night" : "day")}
      >
        <ToggleButton id="day">Day</ToggleButton>
        <ToggleButton id="night">Night</ToggleButton>
      </ToggleButtonGroup>
      <PlansMenu />
    </header>
  );
}
