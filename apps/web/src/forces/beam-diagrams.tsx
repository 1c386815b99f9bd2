import { type AerialForces, type Evaluation, type Quantity, writeAmount } from "@gantline/plan";
import { useSystem } from "../state/desk-context.tsx";
import { CASE_WORD } from "./case-word.ts";

const WIDTH = 420;
const HEIGHT = 190;
const LEFT = 8;
const RIGHT = 8;
const TOP = 26;
const BOTTOM = 26;

type Curve = AerialForces["curve"];
type Part = Exclude<keyof Curve[number], "stationM">;

interface Diagram {
  readonly part: Part;
  readonly what: string;
  readonly quantity: Quantity;
  /** A vertical tip load, as it is rated, has none of it. */
  readonly unrated?: true;
}

const DIAGRAMS: readonly Diagram[] = [
  { part: "momentNm", what: "Bending moment", quantity: "moment" },
  { part: "shearN", what: "Shear", quantity: "force" },
  { part: "compressionN", what: "Compression", quantity: "force" },
  { part: "lateralMomentNm", what: "Sideways moment", quantity: "moment", unrated: true },
  { part: "torsionNm", what: "Twist", quantity: "moment", unrated: true },
];

/** What the ladder carries along its length, from pivot to tip, beside what the maker's rated tip load makes at this pose. */
export function BeamDiagrams({ evaluation }: { readonly evaluation: Evaluation }) {
  return (
    <div className="beam-diagrams">
      {DIAGRAMS.map((diagram) => (
        <BeamDiagram key={diagram.part} diagram={diagram} evaluation={evaluation} />
      ))}
    </div>
  );
}

interface BeamDiagramProps {
  readonly diagram: Diagram;
  readonly evaluation: Evaluation;
}

function BeamDiagram({ diagram: { part, what, quantity, unrated }, evaluation }: BeamDiagramProps) {
  const system = useSystem();
  const peak = (curve: Curve | null | undefined): number =>
    Math.max(0, ...(curve ?? []).map((one) => Math.abs(one[part])));
  const worst = evaluation.cases
    .map((travel) => ({ travel, felt: evaluation.felt[travel] }))
    .sort((a, b) => peak(b.felt?.curve) - peak(a.felt?.curve))[0];
  if (worst?.felt === undefined) return null;
  const { curve } = worst.felt;
  const ratedCurve = unrated ? null : worst.felt.ratedCurve;
  const longM = Math.max(...curve.map((one) => one.stationM), 0.1);
  const most = Math.max(peak(curve), peak(ratedCurve), 1);
  const x = (stationM: number) => LEFT + (stationM / longM) * (WIDTH - LEFT - RIGHT);
  const y = (value: number) => TOP + (Math.abs(value) / most) * (HEIGHT - TOP - BOTTOM);
  const trace = (points: Curve) =>
    points
      .map((one, index) => `${index === 0 ? "M" : "L"}${x(one.stationM).toFixed(1)} ${y(one[part]).toFixed(1)}`)
      .join("");
  const words = (label: string, points: Curve) => `${label} ${writeAmount({ value: peak(points), quantity }, system)}`;
  const ours = words("This plan, most", curve);
  const rated = ratedCurve
    ? words("Rated, most", ratedCurve)
    : unrated
      ? "No limit published"
      : "No rating at this pose";
  return (
    <figure className="moment">
      <figcaption>
        {what} along the ladder, {CASE_WORD[worst.travel]}
      </figcaption>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={`${what} from pivot to tip. ${ours}. ${rated}.`}>
        <path className="moment-axis" d={`M${LEFT} ${TOP}H${WIDTH - RIGHT}`} />
        {ratedCurve && <path className="moment-rated" d={trace(ratedCurve)} />}
        <path className="moment-ours" d={`M${LEFT} ${TOP}${trace(curve).replace("M", "L")}L${WIDTH - RIGHT} ${TOP}Z`} />
        <text x={LEFT} y={TOP - 8}>
          pivot
        </text>
        <text x={WIDTH - RIGHT} y={TOP - 8} textAnchor="end">
          tip, {writeAmount({ value: longM, quantity: "length" }, system)}
        </text>
      </svg>
      <p className="moment-key">
        <span className="is-ours">{ours}</span> <span className={unrated ? "" : "is-rated"}>{rated}</span>
      </p>
    </figure>
  );
}
