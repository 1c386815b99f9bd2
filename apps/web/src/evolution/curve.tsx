import type { Evolution, Series } from "@gantline/plan";
import { memo } from "react";
import { governing, WORST } from "./curves.ts";

/** Ratios above this are drawn at the top: how far over does not matter there. */
const MOST_RATIO = 1.5;
const TOP = 18;
const FOOT = 18;
/** A letter of the curve's names is about this wide, px. */
const LETTER_PX = 6.4;

interface Props {
  readonly evolution: Evolution;
  readonly series: Series;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** One figure over the whole evolution, the stages marked under it; for the worst ratio, which check governs, along its top. */
export const Curve = memo(function Curve({ evolution, series, widthPx, heightPx }: Props) {
  const count = evolution.stages.length;
  const ratio = series.quantity === "ratio";
  const drawn = series.values.map((value) => (value === null ? null : ratio ? Math.min(value, MOST_RATIO) : value));
  const known = drawn.filter((value) => value !== null);
  const least = Math.min(0, ...known);
  const most = Math.max(ratio ? 1.1 : 0, ...known, least + 1e-9);
  const x = (place: number) => place * widthPx;
  const y = (value: number) => heightPx - FOOT - ((value - least) / (most - least)) * (heightPx - TOP - FOOT);
  const path = evolution.moments
    .map(({ at }, index) => {
      const value = drawn[index] ?? null;
      const joined = index > 0 && (drawn[index - 1] ?? null) !== null;
      return value === null ? "" : `${joined ? "L" : "M"}${x(at).toFixed(1)} ${y(value).toFixed(1)}`;
    })
    .join("");
  return (
    <svg className="curve" width={widthPx} height={heightPx} aria-hidden="true">
      {evolution.stages.map(({ stage }, index) => (
        <g key={stage.id}>
          {index > 0 && <path className="curve-stage" d={`M${x(index / count).toFixed(1)} 0V${heightPx}`} />}
          <text className="curve-name" x={x((index + 0.5) / count)} y={heightPx - 4} textAnchor="middle">
            {fitted(`${index + 1} ${stage.name}`, widthPx / count)}
          </text>
        </g>
      ))}
      <path className="curve-axis" d={`M0 ${y(Math.max(0, least)).toFixed(1)}H${widthPx}`} />
      {ratio && <path className="curve-limit" d={`M0 ${y(1).toFixed(1)}H${widthPx}`} />}
      {series.id === WORST &&
        governing(evolution).map(({ name, from, to }) => (
          <g key={from}>
            <path className="curve-governs" d={`M${x(from).toFixed(1)} 0V${TOP - 4}`} />
            <text className="curve-name" x={x(from) + 3} y={12}>
              {fitted(name, x(to) - x(from), "")}
            </text>
          </g>
        ))}
      <path className="curve-line" d={path} />
    </svg>
  );
});

/** As much of a text as there is room for: all, cut with an ellipsis, or what is left. */
function fitted(text: string, roomPx: number, least = text.split(" ", 1)[0] ?? ""): string {
  const letters = Math.floor((roomPx - 8) / LETTER_PX);
  if (text.length <= letters) return text;
  return letters < 6 ? least : `${text.slice(0, letters - 1).trimEnd()}…`;
}
