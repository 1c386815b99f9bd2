import type { LoadPart, MainLine, Tagline } from "@gantline/plan";
import { LetOutTable } from "../forces/let-out-table.tsx";
import { useBench, usePlan } from "../state/desk-context.tsx";
import { Fields } from "./fields.tsx";
import { GearField } from "./gear-field.tsx";
import { GearForm } from "./gear-form.tsx";
import { Fold, Group } from "./group.tsx";
import { ListEditor } from "./list-editor.tsx";
import { MainLineForm } from "./main-line-form.tsx";
import { OptionalPart } from "./optional-part.tsx";
import { newTether, TetherForm } from "./tether-form.tsx";

const LOAD = "rig.load";

/** The load, the ropes that hold it and everything in their way, the taglines, and the gear cache they come from. */
export default function RigForm() {
  const mainLines = usePlan((plan) => plan.rig.mainLines);
  const taglines = usePlan((plan) => plan.rig.taglines);
  const [x, y] = usePlan((plan) => plan.rig.load.positionM);
  const staged = usePlan((present) => present.evolution.stages.length > 0);
  const { store } = useBench();
  const plan = () => store.getState().history.present;
  const groundZM = usePlan((plan) => plan.scene.groundZM);
  return (
    <>
      <Group title="Load" path={LOAD}>
        {staged && (
          <p className="hint is-wide">
            This plan has stages: where the load is wanted, and which way the main lines run, is said in each stage.
            What stands here is the rig's own position.
          </p>
        )}
        <Fields at={LOAD} names={["positionM", "drive", "motion", "dragAreaM2"]} />
      </Group>
      <ListEditor<LoadPart>
        path={`${LOAD}.parts`}
        one="load part"
        title="What hangs"
        most={30}
        make={(id) => ({ id, name: "New part", kind: "hardware", massKg: null })}
      >
        {(path) => <Fields at={path} names={["name", "kind", "massKg"]} />}
      </ListEditor>
      <Fold title="Yoke, bridle and the space the load takes up" path={LOAD}>
        <Group title="Yoke and bridle" path={`${LOAD}.bridle`}>
          <GearField path={`${LOAD}.yoke`} kind="yoke" />
          <GearField path={`${LOAD}.litter`} kind="litter" none="No litter" />
          <Fields at={`${LOAD}.bridle`} names={["heightM", "legs", "spreadM"]} />
          <GearField path={`${LOAD}.bridle.sling`} kind="sling" label="Leg, sling" />
          <GearField path={`${LOAD}.bridle.connector`} kind="connector" label="Leg, connector" />
        </Group>
        <Group title="Space, hung level" path={`${LOAD}.box`}>
          <Fields at={`${LOAD}.box`} names={["lengthM", "widthM", "heightM", "bearingRad"]} />
        </Group>
      </Fold>
      <ListEditor<MainLine>
        path="rig.mainLines"
        one="main line"
        title="Main lines"
        most={2}
        least={1}
        make={(id, items) => ({ ...(items[0] ?? (mainLines[0] as MainLine)), id, name: "New main line" })}
      >
        {(path) => <MainLineForm path={path} />}
      </ListEditor>
      <ListEditor<Tagline>
        path="rig.taglines"
        one="tagline"
        title="Taglines"
        most={2}
        make={(id, items) => ({
          ...(items[0] ?? taglines[0] ?? NEW_TAGLINE),
          id,
          name: "New tagline",
          handler: [x + 8, y, groundZM + 1],
        })}
      >
        {(path) => (
          <>
            <Fields at={path} names={["name", "handler", "people", "drive", "tensionN", "lengthM", "reserveM"]} />
            <GearField path={`${path}.rope`} kind="rope" />
            <GearField path={`${path}.knot`} kind="knot" />
            <GearField path={`${path}.connector`} kind="connector" />
          </>
        )}
      </ListEditor>
      <section className="list">
        <OptionalPart path="rig.tether" title="Skate tether" make={() => newTether(plan())}>
          <TetherForm />
        </OptionalPart>
      </section>
      <LetOutTable />
      <Fold title="Gear cache" path="gear">
        <GearForm />
      </Fold>
    </>
  );
}

/** Its gear is to be chosen: the ids stand for nothing until then, and the ledger says so. */
const NEW_TAGLINE: Tagline = {
  id: "tagline",
  name: "New tagline",
  rope: "rope-tag",
  knot: "knot-eight",
  connector: "connector-light",
  handler: [0, 0, 1],
  people: 1,
  drive: "asNeeded",
  tensionN: null,
  lengthM: null,
  reserveM: 5,
};
