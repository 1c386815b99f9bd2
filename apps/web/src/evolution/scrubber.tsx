import type { Evolution } from "@gantline/plan";
import { useMemo, useState } from "react";
import { useActions, useDesk, useSystem } from "../state/desk-context.tsx";
import { CurvePicker } from "./curve-picker.tsx";
import { valueAt, WORST, worstSeries, writeValue } from "./curves.ts";
import { stageAndPercent } from "./percent-along.ts";
import { ScrubTrack } from "./scrub-track.tsx";
import { usePlay } from "./use-play.ts";
import { placeOf, whenAt } from "./when-at.ts";

/** One curve over the whole evolution, the worst ratio unless another is asked for, and the slider that moves everything to a moment. */
export function Scrubber({ evolution }: { readonly evolution: Evolution }) {
  const actions = useActions();
  const system = useSystem();
  const when = useDesk((desk) => desk.when);
  const sweptShown = useDesk((desk) => desk.sweptShown);
  const [chosen, choose] = useState(WORST);
  const count = evolution.stages.length;
  const at = when === null ? 0 : placeOf(when, count);
  const worst = useMemo(() => worstSeries(evolution), [evolution]);
  const series = evolution.series.find(({ id }) => id === chosen) ?? worst;
  const show = (place: number) => actions.lookAt(whenAt(place, count));
  const play = usePlay(at, count, show);
  const stage = when === null ? undefined : evolution.stages[when.stage];
  const value = writeValue(valueAt(evolution, series, at), series.quantity, system);
  const said =
    when === null || stage === undefined
      ? "The rig's own position is drawn. Move the slider to look at a moment."
      : `${capital(stageAndPercent(when))}, ${stage.stage.name}. ${series.label}: ${value}`;
  return (
    <section className="scrubber" aria-label="Moments of the evolution">
      <div className="scrubber-head">
        <button type="button" className="play" onClick={play.toggle}>
          {play.playing ? "Pause" : "Play"}
        </button>
        <CurvePicker series={evolution.series} chosen={series.id} choose={choose} />
        <button type="button" aria-pressed={sweptShown} onClick={() => actions.showSwept(!sweptShown)}>
          Swept space
        </button>
        {when !== null && (
          <button type="button" onClick={() => actions.lookAt(null)}>
            Leave the evolution
          </button>
        )}
        <p className="scrubber-says figure">{said}</p>
      </div>
      <ScrubTrack
        evolution={evolution}
        series={series}
        at={when === null ? null : at}
        says={said}
        show={(place) => {
          play.pause();
          show(place);
        }}
      />
    </section>
  );
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
