import { poseBefore, type Stage, stageStart, writeAmount, writePhrase } from "@gantline/plan";
import { AmountField } from "../forms/amount-field.tsx";
import { Fields } from "../forms/fields.tsx";
import { OptionalPart } from "../forms/optional-part.tsx";
import { RowTable } from "../forms/row-table.tsx";
import { StageProblemAt } from "../forms/stage-problem.tsx";
import { TickList } from "../forms/tick-list.tsx";
import { useActions, useBench, useDesk, usePlan, useSystem } from "../state/desk-context.tsx";
import { LineUses } from "./line-uses.tsx";
import { StageShares } from "./stage-shares.tsx";

const AXES = ["east", "north", "up"] as const;
/** A new way point lies this far above the last, m: apart from it, so that it can be taken hold of. */
const NEXT_UP_M = 1;

/** One stage to edit; what is wrong with it on top. */
export function StageFields({ path, stage }: { readonly path: string; readonly stage: Stage }) {
  const actions = useActions();
  const { store } = useBench();
  const system = useSystem();
  const index = usePlan((plan) => plan.evolution.stages.findIndex(({ id }) => id === stage.id));
  const parts = usePlan((plan) => plan.rig.load.parts);
  const result = useDesk((desk) => desk.evolution?.swept?.stages[index]);
  const plan = () => store.getState().history.present;
  const nextPoint = (points: readonly (readonly number[])[]): readonly number[] => {
    const [x = 0, y = 0, z = 0] = points.at(-1) ?? stageStart(plan(), index);
    return [x, y, z + NEXT_UP_M];
  };
  return (
    <>
      {result !== undefined && (result.problems.length > 0 || result.freeRope.length > 0) && (
        <div className="stage-says">
          {result.problems.map(({ field, says }) => (
            <p key={`${field} ${writePhrase(says, system)}`} className="stage-problem">
              {writePhrase(says, system)}
            </p>
          ))}
          {result.freeRope.map(({ lineId, name, changeM }) => (
            <p key={lineId}>
              {name}: {writeAmount({ value: Math.abs(changeM), quantity: "length" }, system)} of free rope{" "}
              {changeM >= 0 ? "needed" : "given back"}.
            </p>
          ))}
        </div>
      )}
      <Fields at={path} names={["name", "action", "motion"]} />
      <button type="button" className="look" onClick={() => actions.lookAt({ stage: index, along: 0 })}>
        Show its start on the drawings
      </button>
      <RowTable<readonly number[]>
        path={`${path}.path`}
        title="Way of the yoke, after where the stage before ended."
        one="way point"
        columns={AXES}
        most={30}
        least={0}
        make={nextPoint}
        cells={(at, row) =>
          AXES.map((axis, place) => (
            <AmountField
              key={axis}
              bare
              path={`${at}[${place}]`}
              label={`Stage ${index + 1}, way point ${row + 1}, ${axis}`}
              quantity="length"
            />
          ))
        }
      />
      <TickList path={`${path}.aboard`} title="Aboard" options={parts.map(({ id, name }) => ({ id, word: name }))} />
      <LineUses path={path} />
      <StageShares path={path} />
      {(stage.action === "moveLadder" || stage.pose !== null) && (
        <OptionalPart path={`${path}.pose`} title="Ladder at the end" make={() => poseBefore(plan(), index)}>
          <Fields at={`${path}.pose`} names={["elevationRad", "lengthM", "bearingRad"]} />
        </OptionalPart>
      )}
      <StageProblemAt path={`${path}.pose`} />
      <Fields at={path} names={["notes"]} />
    </>
  );
}
