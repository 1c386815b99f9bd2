import { lazy, Suspense } from "react";
import { FaultWall } from "../shell/fault-wall.tsx";
import { useActions, useDesk, usePlan } from "../state/desk-context.tsx";
import { AmountField } from "./amount-field.tsx";
import { DeviceForm } from "./device-form.tsx";
import { DevicePicker } from "./device-picker.tsx";
import { Fields } from "./fields.tsx";
import { Fold, Group } from "./group.tsx";

const WhereToStand = lazy(() => import("../stand/where-to-stand.tsx"));

/** Which vehicle, where it stands, how its ladder is posed, and what is known of it. */
export default function StandForm() {
  const jacks = usePlan((plan) => plan.aerial.device.jacks);
  const deviceName = usePlan((plan) => plan.aerial.device.name);
  return (
    <>
      <WhereFold />
      <Group title="Ladder" path="aerial.pose">
        <Fields at="aerial.pose" names={["elevationRad", "lengthM", "bearingRad"]} />
        <Fields at="aerial" names={["lockedOut", "useSag"]} />
      </Group>
      <Group title="Vehicle" path="aerial.place">
        <DevicePicker />
        <Fields at="aerial.place" names={["turntableX", "turntableY", "groundZM", "headingRad"]} />
      </Group>
      <Group title="Jacks, run out" path="aerial.jackReach">
        {jacks.map((jack) => (
          <JackReach key={jack.id} id={jack.id} name={jack.name} />
        ))}
      </Group>
      <Fold title={`What is known of ${deviceName}`} path="aerial.device">
        <DeviceForm />
      </Fold>
    </>
  );
}

/** The search is loaded when it is first opened. */
function WhereFold() {
  const actions = useActions();
  const open = useDesk((desk) => desk.whereOpen);
  return (
    <details className="fold" open={open} onToggle={(event) => actions.openWhere(event.currentTarget.open)}>
      <summary>Where to stand</summary>
      {open && (
        <FaultWall what="The search for a place to stand">
          <Suspense fallback={<p className="none">Loading…</p>}>
            <WhereToStand />
          </Suspense>
        </FaultWall>
      )}
    </details>
  );
}

/** A jack whose reach was never put in stands as not known. */
function JackReach({ id, name }: { readonly id: string; readonly name: string }) {
  return <AmountField path={`aerial.jackReach["${id}"]`} label={name} quantity="ratio" />;
}
