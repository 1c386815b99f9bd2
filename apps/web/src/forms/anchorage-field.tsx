import type { Anchorage } from "@gantline/plan";
import { useId } from "react";
import { usePlan } from "../state/desk-context.tsx";
import { ChoiceField } from "./choice-field.tsx";
import { FieldFrame } from "./field-frame.tsx";
import { Fields } from "./fields.tsx";
import { useField } from "./use-field.ts";

/** What something is made fast to: an anchor of the vehicle, or one on the ground or a structure. */
export function AnchorageField({ path }: { readonly path: string }) {
  const id = useId();
  const { value, set } = useField(path);
  const anchors = usePlan((plan) => plan.aerial.device.anchors);
  const [x, y] = usePlan((plan) => plan.rig.load.positionM);
  const groundZM = usePlan((plan) => plan.scene.groundZM);
  const held = value as Anchorage;
  const change = (on: string) => {
    const made: Anchorage =
      on === "vehicle"
        ? { on, anchorId: anchors[0]?.id ?? "anchor" }
        : { on: "ground", position: [x, y, groundZM], ratingN: null, ratingBasis: null, ratingSource: "" };
    if (on !== held.on) set(made);
  };
  return (
    <>
      <FieldFrame id={id} path={`${path}.on`} label="Made fast to" problem={null}>
        <select id={id} value={held.on} onChange={(event) => change(event.target.value)}>
          <option value="vehicle">The vehicle</option>
          <option value="ground">Ground or structure</option>
        </select>
      </FieldFrame>
      {held.on === "vehicle" ? (
        <ChoiceField
          path={`${path}.anchorId`}
          options={anchors.map((anchor) => ({ value: anchor.id, word: anchor.name }))}
        />
      ) : (
        <Fields at={path} names={["position", "ratingN", "ratingBasis", "ratingSource"]} />
      )}
    </>
  );
}
