import { ToggleButton, ToggleButtonGroup } from "react-aria-components";
import { useActions, useDesk } from "../state/desk-context.tsx";
import { PlansMenu } from "./plans-menu.tsx";

/** Units, look and plans. They come a moment after the drawings, which do not wait for them. */
export default function HeadTools() {
  const actions = useActions();
  const system = useDesk((desk) => desk.system);
  const look = useDesk((desk) => desk.look);
  return (
    <>
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
    </>
  );
}
