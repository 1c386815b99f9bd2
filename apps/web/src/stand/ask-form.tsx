import { standAims, vehiclesOf } from "@gantline/plan";
import { useMemo } from "react";
import { usePlan } from "../state/desk-context.tsx";
import { LengthEntry } from "./length-entry.tsx";
import { SearchProblems } from "./search-problems.tsx";
import { CELLS_M } from "./stand-ask.ts";
import { isFirstLook } from "./stand-questions.ts";
import { Ticks } from "./ticks.tsx";
import { useStand, useStandActions } from "./use-stand.ts";
import { useWrite } from "./use-write.ts";

/** Which vehicles, over which places, how near; and the search begun and stopped. */
export function AskForm() {
  const actions = useStandActions();
  const plan = usePlan((one) => one);
  const ask = useStand((desk) => desk.ask);
  const phase = useStand((desk) => desk.phase);
  const write = useWrite();
  const vehicles = useMemo(() => vehiclesOf(plan, ask.kept), [plan, ask.kept]);
  const aims = useMemo(() => standAims(plan), [plan]);
  const running = phase === "running";
  return (
    <section className="where-ask" aria-label="What to look for">
      <div className="where-go">
        <button type="button" className="go" onClick={running ? actions.stop : actions.start}>
          {running ? "Stop" : phase === "idle" ? "Find where to stand" : "Search again"}
        </button>
        <Progress />
      </div>
      <SearchProblems />
      <details className="fold">
        <summary>What to look for</summary>
        <div className="fold-body">
          <Ticks
            title="Vehicles to consider"
            options={vehicles.map(({ id, name, example }) => ({ id, word: example ? `${name} (invented)` : name }))}
            chosen={ask.deviceIds}
            choose={(deviceIds) => actions.setAsk({ deviceIds })}
          />
          <Ticks
            title="To hang over: one stand for all that are ticked"
            options={aims.map(({ id, name }) => ({ id, word: name }))}
            chosen={ask.aimIds}
            choose={(aimIds) => actions.setAsk({ aimIds })}
          />
          <div className="where-fields">
            <LengthEntry
              label="Off plumb, at most"
              valueM={ask.toleranceM}
              leastM={0}
              mostM={10}
              take={(toleranceM) => actions.setAsk({ toleranceM })}
            />
            <label className="field">
              <span className="field-word">A place every</span>
              <select value={ask.cellM} onChange={(event) => actions.setAsk({ cellM: Number(event.target.value) })}>
                {CELLS_M.map((cellM) => (
                  <option key={cellM} value={cellM}>
                    {write(cellM, "length")}
                  </option>
                ))}
              </select>
            </label>
          </div>
        </div>
      </details>
    </section>
  );
}

/** How far the search is; told in words when it ends. */
function Progress() {
  const phase = useStand((desk) => desk.phase);
  const nothing = useStand((desk) => desk.advice !== null);
  const percent = useStand((desk) => Math.floor(100 * desk.looked));
  const ratingLater = useStand(({ searches }) => searches.some(isFirstLook));
  return (
    <>
      {phase !== "idle" && (
        <progress aria-label="Places looked at" max={100} value={percent}>
          {percent} %
        </progress>
      )}
      <p className="where-phase" role="status">
        {PHASE_WORDS[phase]}
        {ratingLater && " First look: what the tip would bear is not yet looked at, so no place is told to fit."}
        {nothing && " No stand holds: below the map is what would make one possible."}
      </p>
    </>
  );
}

const PHASE_WORDS = {
  idle: "",
  running: "Searching, coarse to fine.",
  done: "All places looked at.",
  stopped: "Stopped. What was found stays.",
} as const;
