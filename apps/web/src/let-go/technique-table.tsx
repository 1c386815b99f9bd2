import { drawTechnique, lineNames, svgText, techniqueSays, techniqueSheet, techniqueTitle } from "@gantline/drawing";
import {
  CAUTION,
  exampleLine,
  LET_GO_LIMITS_TEXT,
  type Plan,
  type TechniqueRow,
  techniquePlan,
  techniquesCsv,
  type When,
  writePhrase,
} from "@gantline/plan";
import { useMemo } from "react";
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
    const both = () => {
      drawn ??= drawTechnique(variant ?? plan, row, { system });
      return drawn;
    };
    return variant === null
      ? null
      : { says: techniqueSays(row, system, lineNames(variant)), rest: () => both().rest, gone: () => both().gone };
  }, [plan, when, row, system]);
  return (
    <li className="technique-card">
      <h4>{techniqueTitle(row)}</h4>
      {draw !== null && (
        <div className="technique-pictures">
          <SmallPicture draw={draw.rest} />
          <SmallPicture draw={draw.gone} />
        </div>
      )}
      <ul>
        {(draw?.says ?? techniqueSays(row, system, lineNames(null))).map((line) => (
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

function Figures({ rows }: { readonly rows: readonly TechniqueRow[] }) {
  const write = useWrite();
  const system = useSystem();
  return (
    <div className="rows">
      <table className="bands techniques">
        <caption>The same scene and load; highest force at the tip is that of the worst line to go</caption>
        <thead>
          <tr>
            <th scope="col">Technique</th>
            <th scope="col" className="number">
              On the tip at rest
            </th>
            <th scope="col" className="number">
              Along the ladder
            </th>
            <th scope="col" className="number">
              Square to it
            </th>
            <th scope="col" className="number">
              Sideways
            </th>
            <th scope="col" className="number">
              Bends the ladder
            </th>
            <th scope="col" className="number">
              Tips the vehicle
            </th>
            <th scope="col" className="number">
              Tip, a line gone
            </th>
            <th scope="col" className="number">
              Drop
            </th>
            <th scope="col" className="number">
              Rope
            </th>
            <th scope="col" className="number">
              People
            </th>
            <th scope="col" className="number">
              To raise by hand
            </th>
            <th scope="col">Needs</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ id, name, attendant, figures, worst, needs, says }) => (
            <tr key={`${id} ${attendant}`}>
              <th scope="row">
                {name}
                <span className="band-note">{attendant ? "with attendant" : "no attendant"}</span>
              </th>
              {figures === null ? (
                <td colSpan={12}>{writePhrase(says, system)}</td>
              ) : (
                <>
                  <td className="number figure">{write(figures.tipInBeam.resultantN, "force")}</td>
                  <td className="number figure">
                    {write(Math.abs(figures.tipInBeam.compressionN), "force")}
                    {figures.tipInBeam.compressionN < 0 && <span className="band-note">pulling it out</span>}
                  </td>
                  <td className="number figure">{write(Math.abs(figures.tipInBeam.normalN), "force")}</td>
                  <td className="number figure">{write(Math.abs(figures.tipInBeam.lateralN), "force")}</td>
                  <td className="number figure">{write(figures.ladderMomentNm, "moment")}</td>
                  <td className="number figure">
                    {figures.tippingNm !== null && figures.tippingNm < 0
                      ? "nothing"
                      : write(figures.tippingNm, "moment")}
                  </td>
                  <td className="number figure">
                    {worst?.outcome === "falls" ? "falls" : write(worst?.figures?.tipN.high ?? null, "force")}
                    {worst?.figures && worst.slipUnknown.length > 0 && (
                      <span className="band-note">if its brake does not slip: unknown</span>
                    )}
                  </td>
                  <td className="number figure">
                    {worst?.outcome === "falls"
                      ? write(worst.fall?.heightM ?? null, "length")
                      : write(worst?.figures?.dropM.high ?? null, "length")}
                  </td>
                  <td className="number figure">{write(figures.ropeM, "length")}</td>
                  <td className="number figure">{figures.people}</td>
                  <td className="number figure">{figures.peopleRaising ?? "unknown"}</td>
                  <td>{needs.length > 0 ? needs.join("; ") : "nothing more"}</td>
                </>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
