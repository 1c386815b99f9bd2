import { motionEndS, tensionCurve } from "@gantline/drawing";
import type { LetGoCase } from "@gantline/plan";
import { usePlay } from "../evolution/use-play.ts";
import { useWrite } from "../stand/use-write.ts";
import { useDesk, useSystem } from "../state/desk-context.tsx";
import { CaseCurve } from "./case-curve.tsx";
import { ChartView } from "./chart-view.tsx";
import { useLetGo, useLetGoActions } from "./use-let-go.ts";

/** Without motion: pictures of a replay. */
const PICTURES = 8;

/** From the moment the line goes until all is at rest, or the load is down: played as fast as it happens, or moved by hand; the drawings and the curves follow. */
export function Replay({ one }: { readonly one: LetGoCase }) {
  const actions = useLetGoActions();
  const write = useWrite();
  const system = useSystem();
  const evaluation = useDesk((desk) => desk.evaluation);
  const endS = motionEndS(one);
  const atS = useLetGo((desk) => desk.atS) ?? endS;
  const play = usePlay(
    endS > 0 ? atS / endS : 1,
    PICTURES,
    (share) => actions.replayTo(share >= 1 ? null : share * endS),
    endS / PICTURES,
  );
  if (!(endS > 0)) return null;
  // Who falls freely hangs on nothing.
  const hasTensions = Object.keys(one.motion?.tensionsN ?? {}).length > 0;
  const says = `${write(atS, "time")} of ${write(endS, "time")} after it goes`;
  return (
    <section className="replay" aria-label="Replay">
      <div className="replay-head">
        <button type="button" className="play" onClick={play.toggle}>
          {play.playing ? "Pause" : "Play"}
        </button>
        <input
          className="replay-slider"
          type="range"
          min={0}
          max={100}
          step={0.5}
          value={(100 * atS) / endS}
          aria-label="Time after the line goes"
          aria-valuetext={says}
          onChange={({ target }) => {
            play.pause();
            actions.replayTo((Number(target.value) / 100) * endS);
          }}
        />
        <p className="replay-says figure">{says}</p>
      </div>
      {hasTensions && <ChartView draw={(size) => tensionCurve(one, evaluation, { ...size, system, nowS: atS })} />}
      <CaseCurve one={one} nowS={atS} />
    </section>
  );
}
