import { type Band, type LetGoCase, type Quantity, writePhrase } from "@gantline/plan";
import { StatusSign } from "../ledger/status-sign.tsx";
import { useWrite } from "../stand/use-write.ts";
import { useSystem } from "../state/desk-context.tsx";

interface Row {
  readonly what: string;
  readonly quantity: Quantity;
  readonly band: Band;
  readonly note?: string;
}

/** That something holds is not yet that it is within its limits: no tick. */
const OUTCOME = {
  held: { word: "Held", status: null },
  ifBrakeHolds: { word: "Held if the brake does not slip", status: "unknown" },
  falls: { word: "Falls", status: "over" },
  unknown: { word: "Unknown", status: "unknown" },
} as const;

/** What happens then, in words, and every figure as entered between the least and the most it may be. */
export function CaseFigures({ one }: { readonly one: LetGoCase }) {
  const system = useSystem();
  const write = useWrite();
  const { word, status } = OUTCOME[one.outcome === "held" && one.slipUnknown.length > 0 ? "ifBrakeHolds" : one.outcome];
  return (
    <div className="case-figures" data-outcome={one.outcome}>
      <p className={`case-says${status === null ? "" : ` is-${status}`}`} role="status">
        {status !== null && <StatusSign status={status} />} <b>{word}.</b> {writePhrase(one.says, system)}
      </p>
      {one.figures !== null && <BandTable rows={rowsOf(one.figures, write)} />}
      {one.figures !== null && <OtherFigures one={one} />}
      {one.fall !== null && <FallFigures fall={one.fall} />}
      {one.slipUnknown.length > 0 && (
        <p className="let-go-unknown">
          The slip force of a brake is not known: it was held fast, which gives the highest forces.
        </p>
      )}
    </div>
  );
}

const rowsOf = (
  { tipN, lines, points, person, dropM, swingM }: NonNullable<LetGoCase["figures"]>,
  write: ReturnType<typeof useWrite>,
): readonly Row[] => [
  { what: "Force at the tip", quantity: "force", band: tipN },
  ...felt(points).map(({ name, peakN }): Row => ({ what: name, quantity: "force", band: peakN })),
  ...lines.map(
    (line): Row => ({
      what: line.name,
      quantity: "force",
      band: line.peakN,
      note: [
        line.wentSlack ? "goes slack" : "",
        line.letGo ? "the hands let go" : "",
        line.slippedM > 0 ? `${write(line.slippedM, "length")} of rope through its brake` : "",
      ]
        .filter((part) => part !== "")
        .join(", "),
    }),
  ),
  ...(person === null ? [] : [{ what: `On ${person.name}`, quantity: "force", band: person.peakN } as const]),
  { what: "Drop of the load", quantity: "length", band: dropM },
  { what: "Swing aside", quantity: "length", band: swingM },
];

/** The points that feel any of it; none where one alone does, as its force is the whole. */
function felt(points: NonNullable<LetGoCase["figures"]>["points"]) {
  const some = points.filter(({ peakN }) => peakN.high > 0);
  return some.length > 1 ? some : [];
}

function BandTable({ rows }: { readonly rows: readonly Row[] }) {
  const write = useWrite();
  return (
    <div className="rows">
      <table className="bands">
        <caption>Highest of each, over the range of the rope's dynamic stiffness</caption>
        <thead>
          <tr>
            <td />
            <th scope="col" className="number">
              Low
            </th>
            <th scope="col" className="number">
              As entered
            </th>
            <th scope="col" className="number">
              High
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ what, quantity, band, note }) => (
            <tr key={what}>
              <th scope="row">
                {what}
                {note !== undefined && note !== "" && <span className="band-note">{note}</span>}
              </th>
              <td className="number figure">{write(band.low, quantity)}</td>
              <td className="number figure is-entered">{write(band.entered, quantity)}</td>
              <td className="number figure">{write(band.high, quantity)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** How far, how long and how fast it falls. */
function FallFigures({ fall }: { readonly fall: NonNullable<LetGoCase["fall"]> }) {
  const write = useWrite();
  const { heightM, timeS, speedMS, onto, slippedM, strikes } = fall;
  return (
    <FigureList
      rows={[
        [slippedM > 0 ? "Comes down" : "Falls", write(heightM, "length")],
        ["Until it is down", timeS === null ? "not followed that long" : write(timeS, "time")],
        [`Meets ${onto} at`, write(speedMS, "speed")],
        ...(strikes === null ? [] : [[`Strikes ${strikes.what} before, at`, write(strikes.speedMS, "speed")] as const]),
      ]}
    />
  );
}

function OtherFigures({ one: { figures } }: { readonly one: LetGoCase }) {
  const write = useWrite();
  if (figures === null) return null;
  const { tipInBeam, nearest, hits } = figures;
  const rows: readonly (readonly [string, string])[] = [
    [
      tipInBeam.compressionN < 0 ? "Pulls the ladder out" : "Along the ladder, pressing",
      write(Math.abs(tipInBeam.compressionN), "force"),
    ],
    ["Square to it, in its plane", write(Math.abs(tipInBeam.normalN), "force")],
    ["Sideways", write(Math.abs(tipInBeam.lateralN), "force")],
    ...nearest
      .slice(0, 3)
      .map(
        ({ what, distanceM }) =>
          [`Nearest to ${what}`, distanceM > 0 ? write(distanceM, "length") : "touches"] as const,
      ),
    ...hits.map(({ what, speedMS }) => [`Hits ${what} at`, write(speedMS, "speed")] as const),
  ];
  return <FigureList rows={rows} />;
}

function FigureList({ rows }: { readonly rows: readonly (readonly [string, string])[] }) {
  return (
    <dl className="let-go-figures">
      {rows.map(([word, value]) => (
        <div key={word}>
          <dt>{word}</dt>
          <dd className="figure">{value}</dd>
        </div>
      ))}
    </dl>
  );
}
