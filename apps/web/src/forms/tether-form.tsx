import { type MainLine, type Tether, writeAmount } from "@gantline/plan";
import { useDesk, usePlan, useSystem } from "../state/desk-context.tsx";
import { Fields } from "./fields.tsx";
import { GearField } from "./gear-field.tsx";
import { TickList } from "./tick-list.tsx";

const AT = "rig.tether";

/** The skate tether: its tackle, what it rides, and how it works now. */
export function TetherForm() {
  const mainLines = usePlan((plan) => plan.rig.mainLines);
  return (
    <>
      <Fields at={AT} names={["name", "parts", "lengthMinM", "lengthMaxM", "people", "drive", "tensionN", "lengthM"]} />
      <TickList path={`${AT}.rides`} title="Rides on" options={mainLines.map(({ id, name }) => ({ id, word: name }))} />
      <GearField path={`${AT}.rope`} kind="rope" />
      <GearField path={`${AT}.knot`} kind="knot" />
      <GearField path={`${AT}.connector`} kind="connector" />
      <GearField path={`${AT}.pulley`} kind="sheave" label="Riding pulley" />
      <TetherNow />
    </>
  );
}

/** How the tether works at the place or moment looked at. */
function TetherNow() {
  const tether = useDesk((desk) => desk.evaluation.tether);
  const system = useSystem();
  if (tether === null) return null;
  const length = (value: number) => writeAmount({ value, quantity: "length" }, system);
  const force = (value: number) => writeAmount({ value, quantity: "force" }, system);
  const along = tether.alongLadderN;
  return (
    <dl className="readout">
      <dt>Pull</dt>
      <dd>{force(tether.tensionN)}</dd>
      <dt>Yoke to pulley</dt>
      <dd>{length(tether.lengthM)}</dd>
      <dt>Can still draw in, let out</dt>
      <dd>
        {length(Math.max(0, tether.lengthM - tether.lengthMinM))},{" "}
        {length(Math.max(0, tether.lengthMaxM - tether.lengthM))}
      </dd>
      <dt>Pulley to ladder</dt>
      <dd>{length(tether.ladderClearM)}</dd>
      <dt>Of the pull, in line with the ladder</dt>
      <dd>
        {force(Math.abs(along))} {along < 0 ? "toward the pivot" : "toward the tip"}
      </dd>
    </dl>
  );
}

/** A tether to begin with: rides every main line, drawn together to half a metre. */
export const newTether = (mainLines: readonly MainLine[]): Tether => ({
  id: "tether",
  name: "Tether",
  rope: "rope-11",
  knot: "knot-eight",
  connector: "connector-steel",
  pulley: "sheave-large",
  rides: mainLines.map(({ id }) => id),
  parts: 3,
  lengthMinM: 0.5,
  lengthMaxM: 10,
  people: 1,
  drive: "asNeeded",
  tensionN: null,
  lengthM: null,
});
