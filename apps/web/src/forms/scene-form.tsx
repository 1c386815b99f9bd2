import type { GroundArea, ParkingGround, Plan, PowerLine, Structure } from "@gantline/plan";
import { usePlan } from "../state/desk-context.tsx";
import { Fields } from "./fields.tsx";
import { Group } from "./group.tsx";
import { ListEditor } from "./list-editor.tsx";
import { OptionalPart } from "./optional-part.tsx";
import { OutlineField } from "./outline-field.tsx";
import { PointField } from "./point-field.tsx";
import { TextField } from "./text-field.tsx";

type Corner = [number, number];

/** A square of this side is what a new outline begins as, m. */
const NEW_SIDE_M = 6;

function squareAt([x, y]: readonly [number, number, ...number[]]): Corner[] {
  const half = NEW_SIDE_M / 2;
  return [
    [x - half, y - half],
    [x + half, y - half],
    [x + half, y + half],
    [x - half, y + half],
  ];
}

/** The plan's name, and what stands, lies and hangs at the site. */
export default function SceneForm() {
  const middle = usePlan((plan) => plan.rig.load.positionM);
  const groundZM = usePlan((plan) => plan.scene.groundZM);
  return (
    <>
      <Group title="Plan and site">
        <Fields at="" names={["name", "example"]} />
        <TextField path="scene.name" label="Site" />
        <Fields at="scene" names={["groundZM", "example"]} />
        <TextField path="notes" label="Notes on the plan" lines={3} />
        <TextField path="scene.notes" label="Notes on the site" lines={3} />
      </Group>
      <Group title="Wind">
        <Fields at="scene.wind" names={["gustMS", "fromBearingRad"]} />
      </Group>
      <Group title="People and places">
        <Place path="scene.casualty" title="Casualty" middle={middle} />
        <Place path="scene.destination" title="Destination" middle={middle} />
        <OptionalPart
          path="scene.datum"
          title="Datum for taping"
          make={() => ({ name: "Datum", position: [middle[0], middle[1]] })}
        >
          <TextField path="scene.datum.name" />
          <PointField path="scene.datum.position" axes={2} />
        </OptionalPart>
      </Group>
      <ListEditor<Structure>
        path="scene.structures"
        one="structure"
        title="Structures"
        most={100}
        make={(id) => ({
          id,
          name: "New structure",
          kind: "building",
          outline: squareAt(middle),
          baseZM: groundZM,
          topZM: groundZM + 5,
          parapetHeightM: 0,
          parapetThicknessM: 0.2,
        })}
      >
        {(path) => (
          <>
            <Fields at={path} names={["name", "kind", "baseZM", "topZM", "parapetHeightM", "parapetThicknessM"]} />
            <OutlineField path={`${path}.outline`} />
          </>
        )}
      </ListEditor>
      <ListEditor<ParkingGround>
        path="scene.parking"
        one="parking ground"
        title="Parking ground"
        most={30}
        make={(id) => ({
          id,
          name: "New parking ground",
          outline: squareAt(middle),
          zM: groundZM,
          slopeRad: 0,
          downhillBearingRad: 0,
          bearingPa: null,
        })}
      >
        {(path) => (
          <>
            <Fields at={path} names={["name", "zM", "slopeRad", "downhillBearingRad", "bearingPa"]} />
            <OutlineField path={`${path}.outline`} />
          </>
        )}
      </ListEditor>
      <ListEditor<GroundArea>
        path="scene.areas"
        one="ground area"
        title="Gaps, water, places to keep out of"
        most={60}
        make={(id) => ({ id, name: "New area", kind: "keepOut", outline: squareAt(middle), zM: groundZM })}
      >
        {(path) => (
          <>
            <Fields at={path} names={["name", "kind", "zM"]} />
            <OutlineField path={`${path}.outline`} />
          </>
        )}
      </ListEditor>
      <Group title="Power lines looked for">
        <Fields at="scene" names={["powerLinesLookedFor"]} />
      </Group>
      <ListEditor<PowerLine>
        path="scene.powerLines"
        one="power line"
        title="Power lines"
        most={30}
        make={(id) => ({
          id,
          name: "New power line",
          voltageKv: null,
          wire: [
            [middle[0] - 15, middle[1] + 15, groundZM + 8],
            [middle[0] + 15, middle[1] + 15, groundZM + 8],
          ],
        })}
      >
        {(path) => (
          <>
            <Fields at={path} names={["name", "voltageKv"]} />
            <OutlineField
              path={`${path}.wire`}
              title="Lowest wire, sag and swing allowed for"
              one="point"
              axes={3}
              least={2}
              most={200}
            />
          </>
        )}
      </ListEditor>
    </>
  );
}

function Place({
  path,
  title,
  middle,
}: {
  readonly path: "scene.casualty" | "scene.destination";
  readonly title: string;
  readonly middle: Plan["rig"]["load"]["positionM"];
}) {
  return (
    <OptionalPart path={path} title={title} make={() => ({ name: title, position: [...middle] })}>
      <TextField path={`${path}.name`} />
      <PointField path={`${path}.position`} />
    </OptionalPart>
  );
}
