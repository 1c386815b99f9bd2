import { type Quantity, type StandFigures, writePhrase, writeRatio } from "@gantline/plan";
import { StatusSign } from "../ledger/status-sign.tsx";
import { useSystem } from "../state/desk-context.tsx";
import { ASPECT_WORDS } from "./aspect-words.ts";
import { FIT_STATUS, FIT_WORDS } from "./fit-words.ts";
import type { SweptEntry } from "./plan-worker.ts";
import { StandPictures } from "./stand-pictures.tsx";
import { TakeButton } from "./take-button.tsx";
import { useStandActions } from "./use-stand.ts";
import { useWrite } from "./use-write.ts";

interface Props {
  readonly number: number;
  readonly entry: SweptEntry;
  /** All that stand side by side: which is best by each figure. */
  readonly beside: readonly SweptEntry[];
}

/** One stand of the short list: drawn small, with its figures, what governs it, and the way into the plan. */
export function StandCard({ number, entry, beside }: Props) {
  const actions = useStandActions();
  const system = useSystem();
  const { choice, fit, worst, bestBy, alsoServes } = entry;
  const status = FIT_STATUS[fit];
  return (
    <li className={`stand-card is-${status}`}>
      <h4>
        <span className="frame-number">{number}</span> {choice.device.name}
      </h4>
      {bestBy.length > 0 && <p className="stand-best">{bestBy.map((aspect) => ASPECT_WORDS[aspect]).join(", ")}</p>}
      <StandPictures choice={choice} />
      <p className="stand-fit">
        <StatusSign status={status} /> {FIT_WORDS[fit]}
      </p>
      <dl className="readout">
        {ROWS.map((row) => (
          <FigureRow key={row.key} row={row} entry={entry} beside={beside} />
        ))}
      </dl>
      {worst !== null && worst.status !== "within" && (
        <p className="stand-worst">
          {worst.subject}: {writePhrase(worst.says, system)}
        </p>
      )}
      {alsoServes.map(({ aim }) => (
        <p key={aim.id}>Serves {aim.name} too.</p>
      ))}
      <div className="stand-acts">
        <TakeButton choice={choice} what={`stand ${number}`} />
        <button type="button" aria-label={`Marks to paint for stand ${number}`} onClick={() => actions.place(choice)}>
          Marks to paint
        </button>
      </div>
    </li>
  );
}

interface Row {
  readonly key: keyof StandFigures | "roomM";
  readonly word: string;
  readonly quantity: Quantity;
  readonly moreIsBetter: boolean;
}

const ROWS: readonly Row[] = [
  { key: "elevationRad", word: "Elevation", quantity: "angle", moreIsBetter: true },
  { key: "lengthM", word: "Length", quantity: "length", moreIsBetter: false },
  { key: "utilisation", word: "Rated load used", quantity: "ratio", moreIsBetter: false },
  { key: "tipForceN", word: "Force on the tip", quantity: "force", moreIsBetter: false },
  { key: "clearanceM", word: "Clearance to spare", quantity: "length", moreIsBetter: true },
  { key: "ropeM", word: "Rope, all together", quantity: "length", moreIsBetter: false },
  { key: "roomM", word: "Room to be parked off", quantity: "length", moreIsBetter: true },
];

/** Figures that differ by less are as good, in parts of the figure. */
const AS_GOOD = 1e-3;

function FigureRow({
  row: { key, word, quantity, moreIsBetter },
  entry,
  beside,
}: Pick<Props, "entry" | "beside"> & { readonly row: Row }) {
  const write = useWrite();
  const roomOrFigure = ({ figures, roomM }: SweptEntry): number | null => (key === "roomM" ? roomM : figures[key]);
  const value = roomOrFigure(entry);
  const all = beside.flatMap((one) => roomOrFigure(one) ?? []);
  const best = moreIsBetter ? Math.max(...all) : Math.min(...all);
  const isBest = beside.length > 1 && value !== null && Math.abs(value - best) <= AS_GOOD * Math.abs(best);
  return (
    <>
      <dt>{word}</dt>
      <dd className="figure">
        {quantity === "ratio" && value !== null ? writeRatio(value) : write(value, quantity)}
        {isBest && <span className="best-word"> best</span>}
      </dd>
    </>
  );
}
