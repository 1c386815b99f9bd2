import { MAP_FIGURES, type MapShown } from "@gantline/drawing";
import { useId } from "react";
import { useStand, useStandActions } from "./use-stand.ts";

export const SHOWN_WORDS: Readonly<Record<MapShown, string>> = {
  governs: "What governs",
  steepest: "Steepest elevation",
  shortest: "Shortest ladder",
  leastUsed: "Least used of the rated load",
  clearest: "Most clearance",
  room: "Room to be parked off",
};

/** What the map shows, and for which vehicle. */
export function MapPicker() {
  const id = useId();
  const actions = useStandActions();
  const shown = useStand((desk) => desk.shown);
  const searches = useStand((desk) => desk.searches);
  const deviceId = useStand((desk) => desk.shownDeviceId);
  return (
    <div className="where-fields">
      <div className="field">
        <label htmlFor={`${id}-shown`}>The map shows</label>
        <select id={`${id}-shown`} value={shown} onChange={(event) => actions.show(event.target.value as MapShown)}>
          {(["governs", ...MAP_FIGURES] as const).map((one) => (
            <option key={one} value={one}>
              {SHOWN_WORDS[one]}
            </option>
          ))}
        </select>
      </div>
      {searches.length > 1 && (
        <div className="field">
          <label htmlFor={`${id}-vehicle`}>For the vehicle</label>
          <select
            id={`${id}-vehicle`}
            value={deviceId ?? ""}
            onChange={(event) => actions.showDevice(event.target.value)}
          >
            {searches.map(({ device }) => (
              <option key={device.id} value={device.id}>
                {device.name}
              </option>
            ))}
          </select>
        </div>
      )}
    </div>
  );
}
