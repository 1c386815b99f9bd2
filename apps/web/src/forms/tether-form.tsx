import type { GearKind, Plan, Tether } from "@gantline/plan";
import { TetherNow } from "../forces/tether-now.tsx";
import { usePlan } from "../state/desk-context.tsx";
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

/** A tether to begin with: rides every main line; its gear is the first of each kind in the plan's cache, to be chosen. */
export function newTether({ rig: { mainLines }, gear }: Plan): Tether {
  const first = (kind: GearKind) => gear.find((one) => one.kind === kind)?.id ?? kind;
  return {
    id: "tether",
    name: "Tether",
    rope: first("rope"),
    knot: first("knot"),
    connector: first("connector"),
    pulley: first("sheave"),
    rides: mainLines.map(({ id }) => id),
    parts: 3,
    lengthMinM: 0.5,
    lengthMaxM: 10,
    people: 1,
    drive: "asNeeded",
    tensionN: null,
    lengthM: null,
  };
}
