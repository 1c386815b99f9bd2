import { dropCurve, nearestCurve, pointCurve, swingCurve } from "@gantline/drawing";
import { type LetGoCase, pointLimitN } from "@gantline/plan";
import { useState } from "react";
import { usePlan, useSystem } from "../state/desk-context.tsx";
import { ChartView } from "./chart-view.tsx";

const DROP = "drop";
const WAYS = [
  { id: DROP, name: "Drop", draw: dropCurve },
  { id: "swing", name: "Swing", draw: swingCurve },
  { id: "nearest", name: "How near", draw: nearestCurve },
] as const;

/** One curve more beside the tensions, which one is picked: drop, swing, how near the load comes, the force at each rigging point. */
export function CaseCurve({ one, nowS }: { readonly one: LetGoCase; readonly nowS: number }) {
  const system = useSystem();
  const plan = usePlan((all) => all);
  const [picked, pick] = useState<string>(DROP);
  const points = (one.figures?.points ?? []).filter(({ peakN }) => peakN.high > 0);
  const point = points.find(({ pointId }) => pointId === picked);
  const way = point ? null : (WAYS.find(({ id }) => id === picked) ?? WAYS[0]);
  const choices = [...WAYS, ...points.map(({ pointId, name }) => ({ id: pointId, name }))];
  return (
    <>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset is a form's */}
      <div className="case-lines" role="group" aria-label="The second curve">
        {choices.map(({ id, name }) => (
          <button key={id} type="button" aria-pressed={id === (point?.pointId ?? way?.id)} onClick={() => pick(id)}>
            {name}
          </button>
        ))}
      </div>
      <ChartView
        draw={(size) => {
          const options = { ...size, system, nowS };
          if (!point) return way?.draw(one, options) ?? null;
          const limitN = pointLimitN(plan, point.pointId);
          const limit = limitN === null ? null : { value: limitN, name: "most allowed" };
          return pointCurve(one, point, { ...options, limit });
        }}
      />
    </>
  );
}
