import { usePlan } from "../state/desk-context.tsx";
import { AmountField } from "./amount-field.tsx";
import { DeviceForm } from "./device-form.tsx";
import { DevicePicker } from "./device-picker.tsx";
import { Fields } from "./fields.tsx";
import { Fold, Group } from "./group.tsx";

/** Which vehicle, where it stands, how its ladder is posed, and what is known of it. */
export default function StandForm() {
  const jacks = usePlan((plan) => plan.aerial.device.jacks);
  const deviceName = usePlan((plan) => plan.aerial.device.name);
  return (
    <>
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

/** A jack whose reach was never put in stands as not known. */
function JackReach({ id, name }: { readonly id: string; readonly name: string }) {
  return <AmountField path={`aerial.jackReach["${id}"]`} label={name} quantity="ratio" />;
}
