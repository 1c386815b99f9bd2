import { FaultWall } from "../shell/fault-wall.tsx";
import { AdviceList } from "./advice-list.tsx";
import { AskForm } from "./ask-form.tsx";
import { MapKey } from "./map-key.tsx";
import { MapPicker } from "./map-picker.tsx";
import { PlaceSays } from "./place-says.tsx";
import { PlacementSheet } from "./placement-sheet.tsx";
import { ShortList } from "./short-list.tsx";
import { StandMap } from "./stand-map.tsx";
import "../styles/stand.css";

/** The search for a place to stand: what is looked for, the map as it fills, why not where it does not fit, and what was found. */
export default function WhereToStand() {
  return (
    <div className="where">
      <div className="where-top">
        <AskForm />
        <FaultWall what="The map">
          <StandMap />
        </FaultWall>
        <div className="where-side">
          <MapPicker />
          <PlaceSays />
          <MapKey />
        </div>
      </div>
      <FaultWall what="What would make it fit">
        <AdviceList />
      </FaultWall>
      <FaultWall what="The short list">
        <ShortList />
      </FaultWall>
      <FaultWall what="The sheet of marks">
        <PlacementSheet />
      </FaultWall>
    </div>
  );
}
