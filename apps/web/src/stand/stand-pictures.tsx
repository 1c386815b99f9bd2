import { type Drawing, drawPlan, drawSection, framePicture } from "@gantline/drawing";
import { evaluate, type StandChoice, withStand } from "@gantline/plan";
import { memo, useMemo, useRef } from "react";
import { SvgSheet } from "../sheet/svg-sheet.tsx";
import { useSize } from "../sheet/use-size.ts";
import { useDesk, useSystem } from "../state/desk-context.tsx";
import { useStand } from "./use-stand.ts";

/** A stand as it would look in the plan: section and plan view, small. */
export const StandPictures = memo(function StandPictures({ choice }: { readonly choice: StandChoice }) {
  const system = useSystem();
  const of = useStand((desk) => desk.of);
  const drawings = useMemo(() => {
    if (of === null) return [];
    const plan = withStand(of, choice);
    const evaluation = evaluate(plan);
    return [drawSection(plan, evaluation, { system }), drawPlan(plan, evaluation, { system })];
  }, [of, choice, system]);
  return (
    <div className="stand-pictures" aria-hidden="true">
      {drawings.map((drawing) => (
        <Picture key={drawing.id} drawing={drawing} />
      ))}
    </div>
  );
});

function Picture({ drawing }: { readonly drawing: Drawing }) {
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const theme = useDesk((desk) => desk.look);
  const picture = useMemo(
    () => (size === null ? null : framePicture(drawing, { ...size, theme })),
    [drawing, size, theme],
  );
  return (
    <div ref={box} className="stand-picture">
      {picture !== null && <SvgSheet tree={picture} />}
    </div>
  );
}
