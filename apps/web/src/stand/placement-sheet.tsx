import { drawParkedOff, drawPlacement, fitViewport, reasonWord, svgTree } from "@gantline/drawing";
import {
  evaluate,
  isTight,
  type Plan,
  type StandChoice,
  type StandPlacement,
  withStand,
  writeRatio,
} from "@gantline/plan";
import { useEffect, useMemo, useRef } from "react";
import { dress } from "../sheet/dress.ts";
import { SvgSheet } from "../sheet/svg-sheet.tsx";
import { useSize } from "../sheet/use-size.ts";
import { useDesk, useSystem } from "../state/desk-context.tsx";
import { MapKeyList } from "./map-key.tsx";
import { useStand, useStandActions } from "./use-stand.ts";
import { useWrite } from "./use-write.ts";

/** What is painted on the ground for a stand, what the operator reads at the ladder, and how far it may be parked off. */
export function PlacementSheet() {
  const actions = useStandActions();
  const placed = useStand((desk) => desk.placed);
  const of = useStand((desk) => desk.of);
  const fit = useStand((desk) => desk.list?.entries.find((e) => e.choice === desk.placed?.choice)?.fit ?? null);
  const heading = useRef<HTMLHeadingElement>(null);
  const choice = placed?.choice ?? null;
  useEffect(() => {
    if (choice === null) return;
    heading.current?.focus({ preventScroll: true });
    heading.current?.scrollIntoView({ block: "start" });
  }, [choice]);
  if (placed === null || of === null) return null;
  const { placement } = placed;
  return (
    <section className="placement" aria-label="Marks to paint" aria-busy={placement === null}>
      <div className="placement-head">
        <h3 ref={heading} tabIndex={-1}>
          Marks to paint on the ground
        </h3>
        <button type="button" onClick={() => actions.place(null)}>
          Close the marks
        </button>
      </div>
      {fit === "unknown" && (
        <p className="where-unknown is-unknown">
          Something of this stand is not known: it may not hold. Paint nothing that is relied on before it is.
        </p>
      )}
      {placement === null ? (
        <p className="none">Working out how far it may be parked off…</p>
      ) : (
        <>
          <PlacementDrawing of={of} choice={placed.choice} placement={placement} />
          <div>
            <Readings placement={placement} />
            <TapeTable placement={placement} />
            <ParkedOffPicture placement={placement} />
            <ParkedOffSays placement={placement} />
            <ParkedOffReadings placement={placement} />
          </div>
        </>
      )}
    </section>
  );
}

interface DrawingProps {
  readonly of: Plan;
  readonly choice: StandChoice;
  readonly placement: StandPlacement;
}

function PlacementDrawing({ of, choice, placement }: DrawingProps) {
  const system = useSystem();
  const theme = useDesk((desk) => desk.look);
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const drawing = useMemo(() => {
    const plan = withStand(of, choice);
    return drawPlacement(plan, evaluate(plan), placement, { system });
  }, [of, choice, placement, system]);
  const picture = useMemo(() => {
    if (size === null) return null;
    const viewport = fitViewport(drawing.bounds, size.widthPx, size.heightPx, MARGIN);
    return svgTree(dress(drawing, viewport, system, false), viewport, { theme });
  }, [drawing, size, system, theme]);
  return (
    <div>
      <div ref={box} className="placement-drawing">
        {picture !== null && <SvgSheet tree={picture} />}
      </div>
      <MapKeyList entries={drawing.key} />
    </div>
  );
}

const MARGIN = { left: 34, right: 34, top: 34, bottom: 50 } as const;

function Readings({ placement }: { readonly placement: StandPlacement }) {
  const write = useWrite();
  const rows = [
    ["Front of the vehicle faces", write(placement.headingRad, "angle")],
    ["Ladder on bearing", write(placement.bearingRad, "angle")],
    ["Turned from the front, clockwise", write(placement.turnRad, "angle")],
    ["Inclinometer on the ladder", write(placement.elevationRad, "angle")],
    ["Length, pivot to tip", write(placement.lengthM, "length")],
    ["Run out beyond its shortest", write(placement.extensionM, "length")],
  ] as const;
  return (
    <dl className="readout is-large">
      {rows.map(([word, value]) => (
        <div key={word}>
          <dt>{word}</dt>
          <dd className="figure">{value}</dd>
        </div>
      ))}
    </dl>
  );
}

function TapeTable({ placement: { marks } }: { readonly placement: StandPlacement }) {
  const write = useWrite();
  return (
    <div className="rows">
      <table className="tapes">
        <caption>Each mark lies where two tapes cross</caption>
        <thead>
          <tr>
            <th scope="col">Mark</th>
            <th scope="col">First tape</th>
            <th scope="col">Second tape</th>
            <th scope="col">On the</th>
          </tr>
        </thead>
        <tbody>
          {marks.map(({ id, name, tapes, side }, index) => (
            <tr key={id}>
              <th scope="row">{id === "turntable" ? `T, ${name}` : `${index}, ${name}`}</th>
              {[tapes[0], tapes[1]].map((tape, k) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: the first and the second tape are just that
                <td key={k}>
                  {tape === undefined ? (
                    <span className="none">none to be had</span>
                  ) : (
                    <>
                      <strong className="figure">{write(tape.distanceM, "length")}</strong> from {tape.from.name}
                    </>
                  )}
                </td>
              ))}
              <td>{side ?? "—"}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="none">Left or right of the line from the first tape's end to the second's, looking along it.</p>
    </div>
  );
}

const OFF_PX = 230;

function ParkedOffPicture({ placement }: { readonly placement: StandPlacement }) {
  const system = useSystem();
  const theme = useDesk((desk) => desk.look);
  const picture = useMemo(() => {
    const drawing = drawParkedOff(placement, { system });
    return svgTree(drawing, fitViewport(drawing.bounds, OFF_PX, OFF_PX, 2), { theme });
  }, [placement, system, theme]);
  return placement.parkedOff.length === 0 ? null : (
    <div className="parked-off">
      <SvgSheet tree={picture} />
    </div>
  );
}

/** What is read at the ladder with the turntable as far off as it may be. */
function ParkedOffReadings({ placement: { parkedOff } }: { readonly placement: StandPlacement }) {
  const write = useWrite();
  if (parkedOff.length === 0) return null;
  return (
    <>
      <p>Parked off as far as it holds, at most {write(1, "length")}, the ladder then reads:</p>
      <ul className="placement-readings">
        {parkedOff
          .filter((_, k) => k % 2 === 0)
          .map(({ bearingRad, distanceM, reading }) => (
            <li key={bearingRad}>
              {write(distanceM, "length")} toward {write(bearingRad, "angle")}: bearing{" "}
              {write(reading.bearingRad, "angle")}, inclinometer {write(reading.elevationRad, "angle")}, length{" "}
              {write(reading.lengthM, "length")}, used {writeRatio(reading.used)}
            </li>
          ))}
      </ul>
    </>
  );
}

/** How far the turntable may be off: the least of all directions, and what governs there. */
function ParkedOffSays({
  placement: { parkedOff, area, governs, heldToLoad, turnFreeRad },
}: {
  readonly placement: StandPlacement;
}) {
  const write = useWrite();
  if (area === null) {
    return (
      <p className="where-unknown is-unknown">
        How far it may be parked off is not told: the search does not find that it fits here
        {governs === null ? "" : ` (${reasonWord(governs.check)})`}.
      </p>
    );
  }
  const least = parkedOff.reduce((a, b) => (b.distanceM < a.distanceM ? b : a));
  return (
    <p className={isTight(area.freeM) ? "placement-off is-over" : "placement-off"}>
      {isTight(area.freeM) && "This stand lies on its limit: hardly any room to be parked off. "}
      Parked up to <strong className="figure">{write(area.freeM, "length")}</strong> off any way, with the same heading
      and the ladder posed anew,{" "}
      {heldToLoad
        ? "vehicle, ladder, ropes and load still hold at the moments that matter."
        : "vehicle and ladder still fit. This does not tell of ropes and load, which fail as planned."}
      {turnFreeRad !== null && turnFreeRad > 0 && ` The heading may be ${write(turnFreeRad, "angle")} off.`}
      {least.loadGoverns && ` Further off toward ${write(least.bearingRad, "angle")}: ropes or load.`}
      {least.governs !== null &&
        ` Further off toward ${write(least.bearingRad, "angle")}: ${reasonWord(least.governs.check)}.`}
    </p>
  );
}
