import {
  type CurveOptions,
  cutsCurve,
  mostText,
  shareAt,
  shareSlackChart,
  stageAndPercent,
  worstCurve,
} from "@gantline/drawing";
import {
  evaluate,
  evaluateAt,
  LET_GO_SWEEP_S,
  type LetGoCase,
  type LetGoFigures,
  type ShareSlackCell,
  type ShareSlackMap,
  TIP_SAYS,
  type When,
  writePhrase,
} from "@gantline/plan";
import { useCallback, useMemo } from "react";
import { ScrubTrack } from "../evolution/scrub-track.tsx";
import { useWrite } from "../stand/use-write.ts";
import { useActions, useBench, useDesk, usePlan, useSystem } from "../state/desk-context.tsx";
import { ChartView } from "./chart-view.tsx";
import { usePlanLines } from "./use-case.ts";
import { useLetGoActions } from "./use-let-go.ts";

/** Every line let go at every moment: how far it has come, the force at the tip over the evolution, and the worst for each line. */
export function SweepView() {
  const found = useDesk((desk) => desk.letGo?.found ?? null);
  return (
    <section className="let-go-part" aria-label="Over the whole evolution">
      <h3>Any line, at any moment</h3>
      <SweepProgress />
      <CutsTrack />
      {found !== null && <WorstCuts />}
      {found !== null && <ShareSlack />}
    </section>
  );
}

function SweepProgress() {
  const { letGoSweep } = useBench();
  const kept = useDesk((desk) => desk.letGo);
  const current = useDesk((desk) => desk.letGo?.of === desk.history.present);
  const running = kept?.phase === "running";
  const cuts = kept?.found?.cuts.length ?? 0;
  return (
    <div className="sweep-go" data-phase={kept?.phase ?? "waiting"}>
      {running ? (
        <>
          <progress max={1} value={kept.looked} aria-label="Lines and moments worked through" />
          <button type="button" onClick={letGoSweep.stop}>
            Cancel
          </button>
        </>
      ) : (
        <button type="button" className="go" onClick={letGoSweep.begin}>
          Work through the evolution
        </button>
      )}
      <p role="status">
        {running
          ? "Letting go of every line at every moment…"
          : kept?.fault != null
            ? `It failed: ${kept.fault}`
            : current
              ? `${cuts} cuts followed for ${LET_GO_SWEEP_S.main} s where a main line goes, else ${LET_GO_SWEEP_S.other} s. ${TIP_SAYS[kept?.found?.tip ?? "stiff"]}.`
              : kept?.found == null
                ? "Not worked through yet."
                : kept.of === null
                  ? "The tip is taken otherwise than when this was worked through."
                  : "The plan has changed since this was worked through."}
      </p>
    </div>
  );
}

/** The force at the tip when a line goes, over the evolution: pressed or drawn along, everything moves to that moment. */
function CutsTrack() {
  const actions = useActions();
  const lines = usePlanLines();
  const evolution = useDesk((desk) => desk.evolution?.swept ?? null);
  const found = useDesk((desk) => desk.letGo?.found ?? null);
  const closeRatio = usePlan((plan) => plan.policy.closeRatio.value);
  const when = useDesk((desk) => desk.when);
  const draw = useCallback(
    (options: CurveOptions) => {
      if (evolution === null) throw new Error("there is no evolution to draw");
      return found === null
        ? worstCurve(evolution, { ...options, closeRatio })
        : cutsCurve(evolution, found, lines, options);
    },
    [evolution, found, lines, closeRatio],
  );
  if (evolution === null || evolution.stages.length === 0) return null;
  const says =
    when === null
      ? "The rig's own position. Move the slider to look at a moment."
      : `${stageAndPercent(when)}, ${Math.round(100 * shareAt(evolution, when))} % through`;
  return <ScrubTrack evolution={evolution} draw={draw} when={when} says={says} show={actions.lookAt} />;
}

function WorstCuts() {
  const desk = useActions();
  const actions = useLetGoActions();
  const system = useSystem();
  const worst = useDesk((one) => one.letGo?.found?.worst) ?? [];
  const show = (one: LetGoCase, lineId: string) => {
    actions.choose(lineId);
    desk.lookAt(one.when);
    document.querySelector(".case-picker")?.scrollIntoView({ block: "center" });
  };
  return (
    <div className="rows">
      <table className="bands">
        <caption>Each line at its worst moment, worst first; the most of each</caption>
        <thead>
          <tr>
            <th scope="col">Line</th>
            <th scope="col" className="number">
              Force at the tip
            </th>
            <th scope="col" className="number">
              Drop
            </th>
            <th scope="col" className="number">
              Through a brake
            </th>
            <th scope="col">When</th>
            <td />
          </tr>
        </thead>
        <tbody>
          {worst.map(({ lineId, name, worst: one }) => (
            <tr key={lineId}>
              <th scope="row">{name}</th>
              {one.figures === null ? (
                <td colSpan={3}>{writePhrase(one.says, system)}</td>
              ) : (
                <MostCells figures={one.figures} />
              )}
              <td>{one.when === null ? "the one position" : stageAndPercent(one.when)}</td>
              <td>
                <button type="button" aria-label={`Show this moment: ${name} goes`} onClick={() => show(one, lineId)}>
                  Show this moment
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function MostCells({ figures: { tipN, dropM, lines } }: { readonly figures: LetGoFigures }) {
  const write = useWrite();
  return (
    <>
      <td className="number figure">{mostText(tipN, "force", write)}</td>
      <td className="number figure">{mostText(dropM, "length", write)}</td>
      <td className="number figure">{write(Math.max(0, ...lines.map((l) => l.slippedM)), "length")}</td>
    </>
  );
}

/** So that "keep it even" has a number. */
function ShareSlack() {
  const map = useDesk((desk) => desk.letGo?.found?.map ?? null);
  return map && <ShareSlackFigure map={map} />;
}

function ShareSlackFigure({ map }: { readonly map: ShareSlackMap }) {
  const system = useSystem();
  const lines = usePlanLines();
  const limit = useTipLimit(map.when);
  const name = lines.find(({ id }) => id === map.cut)?.name ?? map.cut;
  return (
    <figure className="share-slack">
      <figcaption>
        Keep it even: highest force at the tip, the high end of its band, when {name} goes
        {map.when === null ? "" : ` in ${stageAndPercent(map.when)}`}. Across, its share of the load; up, slack in the
        other.
        {gapsSay(map)}
        {map.slipUnknown.length > 0 && " Brakes are held fast, as their slip is not known: an upper figure."}
        {limit === null && " What the tip may feel is not known."}
      </figcaption>
      {map.cells.flat().some((cell) => cell.lands) && (
        <p className="let-go-unknown">
          At the triangles, and where it falls, the load comes down on what is below: less force there is no better.
        </p>
      )}
      <ChartView tall draw={(size) => shareSlackChart(map, { ...size, system, limit })} />
    </figure>
  );
}

/** What the tip may feel at a moment: its rating by the policy's factor for peaks; null: not known. */
function useTipLimit(when: When | null): { readonly forceN: number; readonly name: string } | null {
  const plan = usePlan((one) => one);
  return useMemo(() => {
    const ratedN = (when === null ? evaluate(plan) : evaluateAt(plan, when)).ratedTipLoadN;
    const factor = plan.policy.peakRatingFactor.value;
    return ratedN === null || factor === null || !(factor > 0)
      ? null
      : { forceN: ratedN / factor, name: "most allowed at the tip" };
  }, [plan, when]);
}

/** What the signs of a map's cells without a figure mean. */
function gapsSay({ cells }: ShareSlackMap): string {
  const has = (outcome: ShareSlackCell["outcome"]): boolean => cells.flat().some((cell) => cell.outcome === outcome);
  return `${has("falls") ? " “×”: it comes down before the rope holds it." : ""}${has("unknown") ? " “?”: not known." : ""}`;
}
