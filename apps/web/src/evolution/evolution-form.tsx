import { type Evolution, type Stage, writeAmount, writePhrase } from "@gantline/plan";
import { AmountField } from "../forms/amount-field.tsx";
import { ChoiceField } from "../forms/choice-field.tsx";
import { Fields } from "../forms/fields.tsx";
import { Group } from "../forms/group.tsx";
import { ListEditor } from "../forms/list-editor.tsx";
import { OptionalPart } from "../forms/optional-part.tsx";
import { PointField } from "../forms/point-field.tsx";
import { RowTable } from "../forms/row-table.tsx";
import { TickList } from "../forms/tick-list.tsx";
import { useField } from "../forms/use-field.ts";
import { usePlan, useSystem } from "../state/desk-context.tsx";
import { EvolutionLedger } from "./evolution-ledger.tsx";
import { Scrubber } from "./scrubber.tsx";
import { Storyboard } from "./storyboard.tsx";
import { useEvolution } from "./use-evolution.ts";

/** From ground to ground: the storyboard, the curve of the worst ratio with its scrubber, and the stages to edit. */
export default function EvolutionForm() {
  const plan = usePlan((present) => present);
  const { evolution, fault } = useEvolution(plan);
  return (
    <>
      {fault !== null && <p className="none">The sweep failed on this plan. Undo the last change. ({fault})</p>}
      {evolution !== null && evolution.stages.length > 0 && (
        <>
          <Storyboard plan={plan} evolution={evolution} />
          <Scrubber evolution={evolution} />
          <EvolutionLedger evolution={evolution} />
        </>
      )}
      <Group title="Before the first stage">
        <PointField path="evolution.startM" />
      </Group>
      <ListEditor<Stage>
        path="evolution.stages"
        one="stage"
        title="Stages"
        most={40}
        make={newStage}
        heading={(stage, index) => `${index + 1}. ${stage.name}`}
      >
        {(path) => <StageFields path={path} evolution={evolution} />}
      </ListEditor>
    </>
  );
}

const newStage = (id: string, all: readonly Stage[]): Stage => ({
  id,
  name: "New stage",
  action: "hold",
  path: [],
  aboard: all.at(-1)?.aboard ?? [],
  motion: "rest",
  shares: {},
  lines: {},
  pose: null,
  notes: "",
});

function StageFields({ path, evolution }: { readonly path: string; readonly evolution: Evolution | null }) {
  const plan = usePlan((present) => present);
  const system = useSystem();
  const index = Number(/\[(\d+)\]$/.exec(path)?.[1] ?? 0);
  const result = evolution?.stages[index];
  const { rig, aerial } = plan;
  const hands = [...rig.taglines, ...(rig.tether ? [rig.tether] : [])];
  return (
    <>
      {result?.problems.map((problem) => (
        <p key={problem.field + writePhrase(problem.says, system)} className="stage-problem">
          {writePhrase(problem.says, system)}
        </p>
      ))}
      {result?.freeRope.map((rope) => (
        <p key={rope.lineId} className="none">
          {rope.name}: {writeAmount({ value: Math.abs(rope.changeM), quantity: "length" }, system)} of free rope{" "}
          {rope.changeM >= 0 ? "needed" : "given back"}.
        </p>
      ))}
      <Fields at={path} names={["name", "action", "motion", "notes"]} />
      <RowTable<[number, number, number]>
        path={`${path}.path`}
        title="Way of the yoke"
        one="way point"
        columns={["east", "north", "up"]}
        most={30}
        least={0}
        make={(points) => [...(points.at(-1) ?? result?.to ?? plan.evolution.startM)] as [number, number, number]}
        cells={(at) =>
          [0, 1, 2].map((axis) => (
            <AmountField key={axis} path={`${at}[${axis}]`} label={AXES[axis] ?? ""} quantity="length" bare />
          ))
        }
      />
      <TickList
        path={`${path}.aboard`}
        title="Aboard"
        options={rig.load.parts.map(({ id, name }) => ({ id, word: name }))}
      />
      {hands.map((line) => (
        <LineUse key={line.id} path={`${path}.lines["${line.id}"]`} name={line.name} />
      ))}
      <OptionalPart path={`${path}.pose`} title="Ladder at the end" make={() => aerial.pose}>
        <Fields at={`${path}.pose`} names={["elevationRad", "lengthM", "bearingRad"]} />
      </OptionalPart>
    </>
  );
}

const AXES = ["east", "north", "up"] as const;

/** How one hand-held line is used in a stage: as the rig has it, or in its own way. */
function LineUse({ path, name }: { readonly path: string; readonly name: string }) {
  const { value, set } = useField(path);
  if (value === undefined || value === null) {
    return (
      <p className="line-use">
        {name}: as rigged.{" "}
        <button
          type="button"
          className="plain"
          onClick={() => set({ on: true, drive: "asNeeded", tensionN: null, lengthM: null })}
        >
          Use it otherwise in this stage
        </button>
      </p>
    );
  }
  return (
    <Group title={name} path={path}>
      <Fields at={path} names={["on"]} />
      <ChoiceField path={`${path}.drive`} />
      <Fields at={path} names={["tensionN", "lengthM"]} />
    </Group>
  );
}
