import type { Plan, Stage } from "@gantline/plan";
import { useDeferredValue } from "react";
import { Group } from "../forms/group.tsx";
import { ListEditor } from "../forms/list-editor.tsx";
import { PointField } from "../forms/point-field.tsx";
import { useActions, useDesk, usePlan } from "../state/desk-context.tsx";
import { Scrubber } from "./scrubber.tsx";
import { StageFields } from "./stage-fields.tsx";
import { StageHeading } from "./stage-heading.tsx";
import { Storyboard } from "./storyboard.tsx";

/** From ground to ground: the curve of the worst ratio with its scrubber, the storyboard, and the stages to edit. */
export default function EvolutionForm() {
  const actions = useActions();
  const staged = usePlan((plan) => plan.evolution.stages.length > 0);
  const evolution = useDesk((desk) => desk.evolution);
  const swept = evolution?.swept ?? null;
  // While something is dragged the large drawings go first.
  const board = useDeferredValue(evolution);
  const current = useDesk((desk) => desk.evolution?.of === desk.history.present);
  return (
    <div className="evolution" data-swept={current}>
      {evolution !== null && evolution.fault !== null && (
        <p className="field-problem" role="alert">
          The sweep failed on this plan. Undo the last change. ({evolution.fault})
        </p>
      )}
      {swept !== null && <Scrubber evolution={swept} />}
      {board?.swept != null && <Storyboard plan={board.of} evolution={board.swept} />}
      {staged && swept === null && evolution?.fault == null && <p className="none">Working through the stages…</p>}
      {!staged && (
        <p>
          No stages yet: the plan is the one position its rig names. Add the stages in order, from the ground to the
          ground, and every moment of them is worked.
        </p>
      )}
      <Group title="Before the first stage">
        <PointField path="evolution.startM" />
        {!staged && (
          <button type="button" className="add" onClick={() => actions.change(beginBelowLoad)}>
            Begin at the ground below the load
          </button>
        )}
      </Group>
      <ListEditor<Stage>
        path="evolution.stages"
        one="stage"
        title="Stages, in order"
        most={40}
        ordered
        make={newStage}
        heading={(stage, index) => <StageHeading stage={stage} index={index} />}
      >
        {(path, stage) => <StageFields path={path} stage={stage} />}
      </ListEditor>
    </div>
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

/** The yoke this far above what its load hangs under, with the load just off the ground, m. */
const OFF_GROUND_M = 0.2;

/** The way begins under the place the rig names, the load just clear of the ground. */
function beginBelowLoad(plan: Plan): Plan {
  const { bridle, box, positionM } = plan.rig.load;
  const [x, y] = positionM;
  const startM: [number, number, number] = [x, y, plan.scene.groundZM + box.heightM + bridle.heightM + OFF_GROUND_M];
  return { ...plan, evolution: { ...plan.evolution, startM } };
}
