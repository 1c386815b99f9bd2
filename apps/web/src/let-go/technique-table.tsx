import {
  drawTechnique,
  mostText,
  ratingSays,
  svgText,
  techniqueSays,
  techniqueSheet,
  techniqueTitle,
} from "@gantline/drawing";
import {
  CAUTION,
  exampleLine,
  hardestPulled,
  LET_GO_LIMITS_TEXT,
  type LetGoCase,
  type Plan,
  type TechniqueRow,
  techniquePlan,
  techniquesCsv,
  type When,
  writePhrase,
  writeRatio,
} from "@gantline/plan";
import { useMemo } from "react";
import { StatusSign } from "../ledger/status-sign.tsx";
import { useWrite } from "../stand/use-write.ts";
import { useDesk, usePlan, useSystem } from "../state/desk-context.tsx";
import { fileName } from "../state/save-plan-file.ts";
import { saveText } from "../state/save-text.ts";
import { AskedPart } from "./asked-part.tsx";
import { SmallPicture } from "./small-picture.tsx";
import { useLetGo, useLetGoActions } from "./use-let-go.ts";

/** Width of the sheet that is saved, px. */
const SHEET_PX = 1120;

/** Other ways to rig on this scene with this load, side by side: small drawings over what each comes to, and a table of all. */
export function TechniqueTable() {
  const actions = useLetGoActions();
  const plan = usePlan((one) => one);
  const when = useDesk((desk) => desk.when);
  const asked = useLetGo((desk) => desk.techniques);
  const worked = asked.worked;
  return (
    <AskedPart
      title="Other ways to rig it, side by side"
      word="Compare the techniques"
      asked={asked}
      begin={() => actions.compare(plan, when)}
      stop={actions.stopComparing}
    >
      {worked !== null && (
        <>
          <Cards plan={worked.plan} when={worked.when} rows={worked.answer} />
          <Figures rows={worked.answer} />
          <SaveButtons plan={worked.plan} when={worked.when} rows={worked.answer} />
        </>
      )}
    </AskedPart>
  );
}

interface Props {
  readonly plan: Plan;
  readonly when: When | null;
  readonly rows: readonly TechniqueRow[];
}

/** Each without an attendant and with one, side by side. */
function Cards({ plan, when, rows }: Props) {
  const ids = [...new Set(rows.map(({ id }) => id))];
  return (
    <ol className="technique-cards" aria-label="Techniques">
      {ids
        .flatMap((id) => rows.filter((row) => row.id === id))
        .map((row) => (
          <Card key={`${row.id} ${row.attendant}`} plan={plan} when={when} row={row} />
        ))}
    </ol>
  );
}

function Card({ plan, when, row }: Omit<Props, "rows"> & { readonly row: TechniqueRow }) {
  const system = useSystem();
  const draw = useMemo(() => {
    let drawn: ReturnType<typeof drawTechnique> | null = null;
    const variant = techniquePlan(plan, when, row);
    const all = () => {
      drawn ??= drawTechnique(variant ?? plan, row, { system });
      return drawn;
    };
    return variant === null ? null : { rest: () => all().rest, gone: () => all().gone, above: () => all().above };
  }, [plan, when, row, system]);
  return (
    <li className="technique-card">
      <h4>{techniqueTitle(row)}</h4>
      {draw !== null && (
        <div className="technique-pictures">
          <SmallPicture draw={draw.rest} />
          <SmallPicture draw={draw.gone} />
          <SmallPicture draw={draw.above} />
        </div>
      )}
      <ul>
        {techniqueSays(row, system).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </li>
  );
}

function SaveButtons({ plan, when, rows }: Props) {
  const system = useSystem();
  const name = `${fileName(plan.name)} techniques`;
  const saveSheet = () => {
    const variants = rows.map((row) => ({ row, plan: techniquePlan(plan, when, row) }));
    const captions = [LET_GO_LIMITS_TEXT, ...[exampleLine(plan) ?? []].flat(), CAUTION];
    const sheet = techniqueSheet(variants, { widthPx: SHEET_PX, system, name: plan.name, captions });
    saveText(svgText(sheet), `${name}.svg`, "image/svg+xml");
  };
  return (
    <div className="list-tools">
      <button type="button" onClick={() => saveText(techniquesCsv(rows), `${name}.csv`, "text/csv")}>
        Save figures as CSV
      </button>
      <button type="button" onClick={saveSheet}>
        Save drawings as SVG
      </button>
    </div>
  );
}

const NUMBERS = [
  "On the tip at rest",
  "Along the ladder",
  "Square to it",
  "Sideways",
  "Bends the ladder",
  "Tips the vehicle",
  "Tip, a line gone",
  "Hardest rope",
  "On a person",
  "Drop",
  "Swing",
  "Hits at",
  "Rope",
  "People",
  "To raise by hand",
] as const;

function Figures({ rows }: { readonly rows: readonly TechniqueRow[] }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: wider than the panel; the keyboard is to scroll it too.
    <section className="rows" aria-label="Figures of the techniques" tabIndex={0}>
      <table className="bands techniques">
        <caption>
          The same scene and load; what a line's loss does is that of the worst line to go, the most of each
        </caption>
        <thead>
          <tr>
            <th scope="col">Technique</th>
            <th scope="col">Worst check, a line gone</th>
            {NUMBERS.map((word) => (
              <th key={word} scope="col" className="number">
                {word}
              </th>
            ))}
            <th scope="col">Needs</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <TechniqueFigures key={`${row.id} ${row.attendant}`} row={row} />
          ))}
        </tbody>
      </table>
    </section>
  );
}

function TechniqueFigures({ row }: { readonly row: TechniqueRow }) {
  const { name, attendant, figures, worst, needs, says, tipAtRest } = row;
  const write = useWrite();
  const system = useSystem();
  return (
    <tr>
      <th scope="row">
        {name}
        <span className="band-note">{attendant ? "with attendant" : "no attendant"}</span>
      </th>
      {figures === null ? (
        <td colSpan={NUMBERS.length + 2}>{writePhrase(says, system)}</td>
      ) : (
        <>
          <td>
            <Verdict row={row} />
          </td>
          <td className="number figure">
            {write(figures.tipInBeam.resultantN, "force")}
            <span className={`band-note${tipAtRest?.status === "over" ? " is-over" : ""}`}>{ratingSays(row)}</span>
          </td>
          <td className="number figure">
            {write(Math.abs(figures.tipInBeam.compressionN), "force")}
            {figures.tipInBeam.compressionN < 0 && <span className="band-note">pulling it out</span>}
          </td>
          <td className="number figure">{write(Math.abs(figures.tipInBeam.normalN), "force")}</td>
          <td className="number figure">{write(Math.abs(figures.tipInBeam.lateralN), "force")}</td>
          <td className="number figure">{write(figures.ladderMomentNm, "moment")}</td>
          <td className="number figure">
            {figures.tippingNm !== null && figures.tippingNm < 0 ? "nothing" : write(figures.tippingNm, "moment")}
          </td>
          {worst !== null && <LossCells worst={worst} />}
          <td className="number figure">{write(figures.ropeM, "length")}</td>
          <td className="number figure">{figures.people}</td>
          <td className="number figure">{figures.peopleRaising ?? "unknown"}</td>
          <td>{needs.length > 0 ? needs.join("; ") : "nothing more"}</td>
        </>
      )}
    </tr>
  );
}

/** What the checks say of the worst loss; what it would be with its brakes held fast where that is not known. */
function Verdict({ row: { verdict, worst, gone } }: { readonly row: TechniqueRow }) {
  if (verdict === null) return null;
  const { status, ifHeld } = verdict;
  const fast = worst?.figures && worst.slipUnknown.length > 0;
  return (
    <>
      <StatusSign status={status} /> {status}
      <span className="band-note">
        {gone} gone: {ifHeld.subject.replace("A line gone: ", "")}
        {ifHeld.ratio === null ? "" : `, ${writeRatio(ifHeld.ratio)}`}
        {fast && `; ${ifHeld.status} if its brake holds fast`}
      </span>
    </>
  );
}

/** What a line's loss does: six figures of one that is held, how far and fast of one that falls. */
function LossCells({ worst: { outcome, figures, fall, slipUnknown } }: { readonly worst: LetGoCase }) {
  const write = useWrite();
  if (figures === null)
    return (
      <>
        <td className="number figure">{outcome}</td>
        <td />
        <td />
        <td className="number figure">{write(fall?.heightM ?? null, "length")}</td>
        <td />
        <td className="number figure">{write(fall?.speedMS ?? null, "speed")}</td>
      </>
    );
  const pulled = hardestPulled(figures);
  const [hit] = figures.hits;
  return (
    <>
      <td className="number figure">
        {mostText(figures.tipN, "force", write)}
        {slipUnknown.length > 0 && <span className="band-note">if its brake does not slip: unknown</span>}
      </td>
      <td className="number figure">
        {write(pulled?.peakN.high ?? null, "force")}
        <span className="band-note">{pulled?.name}</span>
      </td>
      <td className="number figure">{figures.person ? write(figures.person.peakN.high, "force") : "nobody"}</td>
      <td className="number figure">{write(figures.dropM.high, "length")}</td>
      <td className="number figure">{write(figures.swingM.high, "length")}</td>
      <td className="number figure">
        {hit ? write(hit.speedMS, "speed") : "nothing"}
        {hit && <span className="band-note">{hit.what}</span>}
      </td>
    </>
  );
}
