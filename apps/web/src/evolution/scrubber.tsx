import { type CurveOptions, seriesSays, shareAt, stageAndPercent, whenThrough, worstSays } from "@gantline/drawing";
import type { Evolution, When } from "@gantline/plan";
import { useCallback, useState } from "react";
import { useActions, useDesk, usePlan, useSystem } from "../state/desk-context.tsx";
import { curveOf } from "./curve-of.ts";
import { CurvePicker } from "./curve-picker.tsx";
import { ScrubTrack } from "./scrub-track.tsx";
import { usePlay } from "./use-play.ts";

/** One curve over the whole evolution, the worst ratio unless another is asked for, and the slider that moves everything to a moment. */
export function Scrubber({ evolution }: { readonly evolution: Evolution }) {
  const actions = useActions();
  const system = useSystem();
  const when = useDesk((desk) => desk.when);
  const sweptShown = useDesk((desk) => desk.sweptShown);
  const [chosen, choose] = useState<string | null>(null);
  const series = evolution.series.find(({ id }) => id === chosen) ?? null;
  const seriesId = series?.id ?? null;
  const closeRatio = usePlan((plan) => plan.policy.closeRatio.value);
  const draw = useCallback(
    (options: CurveOptions) => curveOf(evolution, seriesId, { ...options, closeRatio }),
    [evolution, seriesId, closeRatio],
  );
  const at = when === null ? 0 : shareAt(evolution, when);
  const play = usePlay(at, evolution.stages.length, (share) => actions.lookAt(whenThrough(evolution, share)));
  const figureAt = (then: When): string =>
    series === null
      ? `Worst: ${worstSays(evolution, then)}`
      : `${series.label}: ${seriesSays(evolution, series, then, system)}`;
  const said =
    when === null
      ? "The rig's own position is drawn. Move the slider to look at a moment."
      : `${capital(stageAndPercent(when))}, ${evolution.stages[when.stage]?.stage.name ?? ""}. ${figureAt(when)}`;
  return (
    <section className="scrubber" aria-label="Moments of the evolution">
      <div className="scrubber-head">
        <button type="button" className="play" onClick={play.toggle}>
          {play.playing ? "Pause" : "Play"}
        </button>
        <CurvePicker series={evolution.series} chosen={seriesId} choose={choose} />
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
        draw={draw}
        when={when}
        says={said}
        show={(then) => {
          play.pause();
          actions.lookAt(then);
        }}
      />
    </section>
  );
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
