import { letOuts, writeAmount, writeRatio } from "@gantline/plan";
import { useMemo } from "react";
import { MomentName } from "../evolution/moment-name.tsx";
import { useActions, useDesk, usePlan, useSystem } from "../state/desk-context.tsx";

/** What would happen if a hand-held line that pulls were let go at the place or moment that is drawn. */
export function LetOutTable() {
  const actions = useActions();
  const system = useSystem();
  const plan = useDesk((desk) => desk.shownPlan);
  const found = useMemo(() => letOuts(plan), [plan]);
  const shown = useDesk((desk) => desk.letOutLineId);
  const staged = usePlan((plan) => plan.evolution.stages.length > 0);
  const write = (value: number | null, quantity: "length" | "time" | "angle") =>
    writeAmount(value === null ? null : { value, quantity }, system);
  return (
    <section className="rows" aria-label="Let out and swing">
      <table className="forces">
        <caption>
          If a hand-held line is let go{staged ? ": " : " here"}
          {staged && <MomentName />}
          {found.length === 0 && <span className="none"> No line pulls.</span>}
        </caption>
        {found.length > 0 && (
          <>
            <thead>
              <tr>
                <th scope="col">Line</th>
                <th scope="col" className="number">
                  Swings from plumb
                </th>
                <th scope="col" className="number">
                  There and back
                </th>
                <th scope="col" className="number">
                  Tension over rest
                </th>
                <th scope="col" className="number">
                  Clears by
                </th>
                <td />
              </tr>
            </thead>
            <tbody>
              {found.map((one) => (
                <tr key={one.lineId}>
                  <th scope="row">{one.name}</th>
                  <td className="number figure">
                    {write(one.amplitudeM, "length")}, {write(one.angleRad, "angle")}
                  </td>
                  <td className="number figure">{write(one.periodS, "time")}</td>
                  <td className="number figure">{writeRatio(one.tensionRatio)}</td>
                  <td className="number figure">
                    {one.clearanceM === null
                      ? "nothing near"
                      : one.clearanceM > 0
                        ? `${write(one.clearanceM, "length")}, ${one.nearestTo}`
                        : `strikes ${one.nearestTo}`}
                  </td>
                  <td>
                    <button
                      type="button"
                      aria-pressed={shown === one.lineId}
                      onClick={() => actions.showLetOut(shown === one.lineId ? null : one.lineId)}
                    >
                      Show on drawing
                    </button>
                  </td>
                </tr>
              ))}
            </tbody>
          </>
        )}
      </table>
    </section>
  );
}
