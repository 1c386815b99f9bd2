import { cellSays } from "@gantline/drawing";
import { cellMiddle } from "@gantline/engine";
import { useMemo } from "react";
import { useSystem } from "../state/desk-context.tsx";
import { bestPoses } from "./best-poses.ts";
import { placeName } from "./place-name.ts";
import { isFirstLook } from "./stand-questions.ts";
import { TakeButton } from "./take-button.tsx";
import { useShownSearch, useStand } from "./use-stand.ts";
import { useWrite } from "./use-write.ts";

/** What was found at the place asked about: why not and by how much, or its best poses by each figure, each to be taken. */
export function PlaceSays() {
  const system = useSystem();
  const write = useWrite();
  const search = useShownSearch();
  const cell = useStand((desk) => desk.cell);
  const found = cell === null || search === null ? null : search.cells.at(cell);
  const poses = useMemo(() => (found === null || found.question.ratingLater ? [] : bestPoses(found)), [found]);
  if (search === null) return null;
  if (cell === null || found === null) {
    return (
      <p className="where-hint">
        Touch the map, or move the square on it by arrow keys: it says why there, and why not. The map holds vehicle
        {isFirstLook(search) ? " and ladder, and soon the rating," : ", ladder and rating"} against the ground; ropes,
        load and the pressure under the jacks are swept for the short list. The way the ladder is raised and slewed into
        its pose is not checked.
      </p>
    );
  }
  const exact = found.band.cells[found.entry] === cell;
  return (
    <section className="place-says" aria-label="The place looked at">
      <h4>
        {placeName(cellMiddle(search.cells.grid, cell), write)}
        {!exact && <span className="none"> (as its neighbour; not looked at yet)</span>}
      </h4>
      <p className="place-why">{cellSays(found.question, found.band, found.entry, system)}</p>
      {poses.map(({ word, place, pose }) => (
        <div key={word} className="place-pose">
          <p>
            <strong>{word}</strong>
            <br />
            <span className="figure">
              {write(pose.elevationRad, "angle")} up, {write(pose.lengthM, "length")} long, bearing{" "}
              {write(pose.bearingRad, "angle")}; front faces {write(place.headingRad, "angle")}
            </span>
          </p>
          <TakeButton
            what={word}
            choice={{
              device: search.device,
              turntable: [place.turntableX, place.turntableY],
              headingRad: place.headingRad,
              pose,
            }}
          />
        </div>
      ))}
    </section>
  );
}
