import { type Evolution, type Series, type When, writeAmount, writeRatio } from "@gantline/plan";
import { useEffect, useRef, useState } from "react";
import { useActions, useDesk, useSystem } from "../state/desk-context.tsx";
import { percentAlong } from "./percent-along.ts";

const WIDTH = 900;
const HEIGHT = 150;
const TOP = 20;
const FOOT = 18;
/** Of the whole evolution: one press of an arrow key, and of a page key. */
const STEP = 0.005;
/** Seconds a stage takes when played. */
const STAGE_S = 3;
const WORST = "worst";

/** One curve over the whole evolution, the worst ratio unless another is asked for, and the slider that moves everything to a moment. */
export function Scrubber({ evolution }: { readonly evolution: Evolution }) {
  const actions = useActions();
  const system = useSystem();
  const when = useDesk((desk) => desk.when);
  const [chosen, choose] = useState(WORST);
  const count = evolution.stages.length;
  const at = when === null ? 0 : (when.stage + when.along) / count;
  const series = evolution.series.find((s) => s.id === chosen) ?? worstSeries(evolution);
  const show = (place: number) => actions.lookAt(whenAt(evolution, place));
  const play = usePlay(at, count, show);
  const stage = when === null ? null : evolution.stages[when.stage];
  const value = valueAt(evolution, series, at);
  const says =
    value === null
      ? "not known"
      : series.quantity === "ratio"
        ? writeRatio(value)
        : writeAmount({ value, quantity: series.quantity }, system);
  return (
    <section className="scrubber" aria-label="The evolution">
      <div className="scrubber-head">
        <button type="button" aria-pressed={play.playing} onClick={play.toggle}>
          {play.playing ? "Pause" : "Play"}
        </button>
        <label>
          Curve{" "}
          <select value={chosen} onChange={(event) => choose(event.target.value)}>
            <option value={WORST}>Worst ratio of all checks</option>
            {evolution.series.map((s) => (
              <option key={s.id} value={s.id}>
                {s.label}
                {s.quantity === "ratio" ? ", ratio" : ""}
              </option>
            ))}
          </select>
        </label>
        <output className="figure">
          {when === null || stage === undefined || stage === null
            ? "Move the slider to look at a moment."
            : `Stage ${when.stage + 1}, ${stage.stage.name}, ${percentAlong(when)}: ${says}`}
        </output>
        {when !== null && (
          <button type="button" onClick={() => actions.lookAt(null)}>
            Leave the evolution
          </button>
        )}
      </div>
      <Curve evolution={evolution} series={series} at={when === null ? null : at} />
      <input
        type="range"
        aria-label="Moment of the evolution"
        aria-valuetext={when === null ? "none" : `Stage ${when.stage + 1}, ${percentAlong(when)}`}
        min={0}
        max={1}
        step={STEP}
        value={at}
        onChange={(event) => show(Number(event.target.value))}
      />
    </section>
  );
}

function Curve({
  evolution,
  series,
  at,
}: {
  readonly evolution: Evolution;
  readonly series: Series;
  readonly at: number | null;
}) {
  const count = evolution.stages.length;
  const known = series.values.filter((v) => v !== null);
  const most = Math.max(
    series.quantity === "ratio" ? 1.1 : 0,
    ...known.map((v) => Math.min(v, series.quantity === "ratio" ? 1.5 : v)),
    1e-9,
  );
  const x = (place: number) => place * WIDTH;
  const y = (v: number) => HEIGHT - FOOT - (Math.max(0, Math.min(v, most)) / most) * (HEIGHT - TOP - FOOT);
  const path = evolution.moments
    .map((m, i) => {
      const v = series.values[i] ?? null;
      const before = i > 0 ? (series.values[i - 1] ?? null) : null;
      return v === null ? "" : `${before === null ? "M" : "L"}${x(m.at).toFixed(1)} ${y(v).toFixed(1)}`;
    })
    .join("");
  return (
    <svg
      className="curve"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      preserveAspectRatio="none"
      aria-label={`${series.label} over the evolution`}
    >
      {evolution.stages.map((s, i) => (
        <g key={s.stage.id}>
          <line className="curve-stage" x1={x(i / count)} x2={x(i / count)} y1={0} y2={HEIGHT} />
          <text className="curve-name" x={x(i / count) + 4} y={HEIGHT - 5}>
            {i + 1}
          </text>
        </g>
      ))}
      {series.quantity === "ratio" && (
        <>
          <line className="curve-limit" x1={0} x2={WIDTH} y1={y(1)} y2={y(1)} />
          <text className="curve-name" x={WIDTH - 4} y={y(1) - 3} textAnchor="end">
            limit
          </text>
        </>
      )}
      {governing(evolution, series).map(({ name, from }) => (
        <text key={`${name}${from}`} className="curve-name" x={x(from) + 4} y={12}>
          {name}
        </text>
      ))}
      <path className="curve-line" d={path} />
      {at !== null && <line className="curve-now" x1={x(at)} x2={x(at)} y1={0} y2={HEIGHT} />}
    </svg>
  );
}

/** Stretches narrower than this carry no name. */
const NAMED_WIDTH = 0.16;

/** Which check governs where, for the curve of the worst ratio: names wide enough apart to be read. */
function governing(evolution: Evolution, series: Series): readonly { readonly name: string; readonly from: number }[] {
  if (series.id !== WORST) return [];
  const names = new Map(evolution.ledger.map((c) => [c.id, c.subject]));
  const found: { name: string; from: number }[] = [];
  for (const m of evolution.moments) {
    const name = names.get(m.worst.checkId ?? "") ?? "";
    const last = found.at(-1);
    if (name !== "" && name !== last?.name && (last === undefined || m.at - last.from > NAMED_WIDTH))
      found.push({ name, from: m.at });
  }
  return found;
}

const worstSeries = (evolution: Evolution): Series => ({
  id: WORST,
  label: "Worst ratio of all checks",
  quantity: "ratio",
  values: evolution.moments.map((m) => (m.holds === "unsolved" ? null : m.worst.ratio)),
});

/** The moment at a place of the whole evolution, 0 to 1; every stage takes the same width. */
function whenAt(evolution: Evolution, place: number): When {
  const count = evolution.stages.length;
  const stage = Math.min(count - 1, Math.max(0, Math.floor(place * count)));
  return { stage, along: Math.min(1, Math.max(0, place * count - stage)) };
}

/** The value of a curve between its two nearest moments; null where either is not known. */
function valueAt(evolution: Evolution, series: Series, at: number): number | null {
  const after = evolution.moments.findIndex((m) => m.at >= at);
  const [a, b] = [Math.max(0, after - 1), Math.max(0, after)];
  const [left, right] = [series.values[a] ?? null, series.values[b] ?? null];
  if (left === null || right === null) return right ?? left;
  const [from, to] = [evolution.moments[a]?.at ?? 0, evolution.moments[b]?.at ?? 0];
  return to > from ? left + ((at - from) / (to - from)) * (right - left) : right;
}

/** Runs through the evolution at reading speed; stage by stage for those who want no motion. */
function usePlay(at: number, count: number, show: (place: number) => void) {
  const [playing, setPlaying] = useState(false);
  const latest = useRef({ at, show });
  latest.current = { at, show };
  useEffect(() => {
    if (!playing) return;
    const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
    let frame = 0;
    let last = performance.now();
    const step = (now: number) => {
      const seconds = (now - last) / 1000;
      if (!still || seconds >= STAGE_S) {
        last = now;
        const next = latest.current.at + (still ? 1 / count : seconds / (STAGE_S * count));
        latest.current.show(Math.min(1, next));
        if (next >= 1) {
          setPlaying(false);
          return;
        }
      }
      frame = requestAnimationFrame(step);
    };
    frame = requestAnimationFrame(step);
    return () => cancelAnimationFrame(frame);
  }, [playing, count]);
  return {
    playing,
    toggle: () => {
      if (!playing && at >= 1) show(0);
      setPlaying(!playing);
    },
  };
}
