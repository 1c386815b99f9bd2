import { type AerialForces, type Evaluation, writeAmount } from "@gantline/plan";
import { useSystem } from "../state/desk-context.tsx";
import { CASE_WORD } from "./case-word.ts";

const WIDTH = 420;
const HEIGHT = 190;
const LEFT = 8;
const RIGHT = 8;
const TOP = 26;
const BOTTOM = 26;

type Curve = AerialForces["curve"];

/** Bending moment along the ladder from pivot to tip, beside the one the maker's rated tip load makes at this pose. */
export function MomentDiagram({ evaluation }: { readonly evaluation: Evaluation }) {
  const system = useSystem();
  const worst = evaluation.cases
    .map((travel) => ({ travel, felt: evaluation.felt[travel] }))
    .sort((a, b) => peak(b.felt?.curve) - peak(a.felt?.curve))[0];
  if (worst?.felt === undefined) return null;
  const { curve, ratedCurve } = worst.felt;
  const longM = Math.max(...curve.map((one) => one.stationM), 0.1);
  const mostNm = Math.max(peak(curve), peak(ratedCurve), 1);
  const x = (stationM: number) => LEFT + (stationM / longM) * (WIDTH - LEFT - RIGHT);
  const y = (momentNm: number) => TOP + (Math.abs(momentNm) / mostNm) * (HEIGHT - TOP - BOTTOM);
  const trace = (points: Curve) =>
    points
      .map((one, index) => `${index === 0 ? "M" : "L"}${x(one.stationM).toFixed(1)} ${y(one.momentNm).toFixed(1)}`)
      .join("");
  const words = (label: string, points: Curve) =>
    `${label} ${writeAmount({ value: peak(points), quantity: "moment" }, system)}`;
  const ours = words("This plan, most", curve);
  const rated = ratedCurve === null ? "No rating at this pose" : words("Rated, most", ratedCurve);
  return (
    <figure className="moment">
      <figcaption>Bending moment along the ladder, {CASE_WORD[worst.travel]}</figcaption>
      <svg
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={`Bending moment from pivot to tip. ${ours}. ${rated}.`}
      >
        <path className="moment-axis" d={`M${LEFT} ${TOP}H${WIDTH - RIGHT}`} />
        {ratedCurve !== null && <path className="moment-rated" d={trace(ratedCurve)} />}
        <path className="moment-ours" d={`M${LEFT} ${TOP}${trace(curve).replace("M", "L")}L${WIDTH - RIGHT} ${TOP}Z`} />
        <text x={LEFT} y={TOP - 8}>
          pivot
        </text>
        <text x={WIDTH - RIGHT} y={TOP - 8} textAnchor="end">
          tip, {writeAmount({ value: longM, quantity: "length" }, system)}
        </text>
      </svg>
      <p className="moment-key">
        <span className="is-ours">{ours}</span> <span className="is-rated">{rated}</span>
      </p>
    </figure>
  );
}

const peak = (curve: Curve | null | undefined): number =>
  Math.max(0, ...(curve ?? []).map((one) => Math.abs(one.momentNm)));
