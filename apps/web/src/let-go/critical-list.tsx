import { drawCritical, mostText } from "@gantline/drawing";
import {
  type CriticalPoint,
  evaluate,
  evaluateAt,
  momentPlan,
  type Plan,
  type When,
  writePhrase,
} from "@gantline/plan";
import { useCallback, useMemo } from "react";
import { StatusSign } from "../ledger/status-sign.tsx";
import { useWrite } from "../stand/use-write.ts";
import { useDesk, usePlan, useSystem } from "../state/desk-context.tsx";
import { AskedPart } from "./asked-part.tsx";
import { SmallPicture } from "./small-picture.tsx";
import { useLetGo, useLetGoActions } from "./use-let-go.ts";

/** Every part, anchor and pair of hands taken away in turn: what holds then. Worst first. */
export function CriticalList() {
  const actions = useLetGoActions();
  const plan = usePlan((one) => one);
  const when = useDesk((desk) => desk.when);
  const asked = useLetGo((desk) => desk.critical);
  const worked = asked.worked;
  return (
    <AskedPart
      title="Critical points"
      word="Take every part away in turn"
      asked={asked}
      begin={() => actions.findCritical(plan, when)}
      stop={actions.stopCritical}
    >
      {worked !== null && <Points plan={worked.plan} when={worked.when} points={worked.answer} />}
    </AskedPart>
  );
}

interface PointsProps {
  readonly plan: Plan;
  readonly when: When | null;
  readonly points: readonly CriticalPoint[];
}

function Points({ plan, when, points }: PointsProps) {
  const system = useSystem();
  const moment = useMemo(
    () =>
      when === null
        ? { plan, evaluation: evaluate(plan) }
        : { plan: momentPlan(plan, when), evaluation: evaluateAt(plan, when) },
    [plan, when],
  );
  const draw = useCallback(
    (point: CriticalPoint) => drawCritical(moment.plan, moment.evaluation, point, { system }),
    [moment, system],
  );
  return (
    <ol className="critical" aria-label="Critical points, worst first">
      {points.map((point) => (
        <Point key={point.id} point={point} draw={draw} />
      ))}
    </ol>
  );
}

const STATUS = { held: null, ifBrakeHolds: "unknown", falls: "over", unknown: "unknown" } as const;
const WORD = {
  held: "Held",
  ifBrakeHolds: "Held if the brake does not slip",
  falls: "Nothing holds",
  unknown: "Unknown",
} as const;

interface PointProps {
  readonly point: CriticalPoint;
  readonly draw: (point: CriticalPoint) => ReturnType<typeof drawCritical>;
}

function Point({ point, draw }: PointProps) {
  const system = useSystem();
  const write = useWrite();
  const { subject, outcome, shared, unavoidable, says, result } = point;
  const kind = outcome === "held" && result !== null && result.slipUnknown.length > 0 ? "ifBrakeHolds" : outcome;
  const status = STATUS[kind];
  const drawn = useCallback(() => draw(point), [draw, point]);
  return (
    <li className={`critical-point${status === null ? "" : ` is-${status}`}`}>
      <SmallPicture draw={drawn} />
      <h4>{subject}</h4>
      <p className="critical-outcome">
        {status !== null && <StatusSign status={status} />} {WORD[kind]}
        {unavoidable
          ? ": there is one of it on any such rig, judged by its own strength"
          : shared && ", both ropes hang on it"}
      </p>
      <p>{writePhrase(says, system)}</p>
      {result?.figures != null && (
        <p className="figure">
          Tip at most {mostText(result.figures.tipN, "force", write)}, drop at most{" "}
          {mostText(result.figures.dropM, "length", write)}
        </p>
      )}
    </li>
  );
}
