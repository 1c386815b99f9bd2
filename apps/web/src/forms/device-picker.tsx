import { type Device, EXAMPLE_DEVICES } from "@gantline/plan";
import { useId } from "react";
import { useActions, usePlan } from "../state/desk-context.tsx";
import { FieldFrame } from "./field-frame.tsx";

/** Takes another vehicle from the library. The pose is kept as far as the new ladder's limits let it. */
export function DevicePicker() {
  const id = useId();
  const actions = useActions();
  const held = usePlan((plan) => plan.aerial.device);
  const inLibrary = EXAMPLE_DEVICES.some((device) => device.id === held.id);
  const take = (device: Device) =>
    actions.change((plan) => ({
      ...plan,
      aerial: {
        ...plan.aerial,
        device,
        jackReach: {},
        pose: { ...plan.aerial.pose, ...posedWithin(device, plan.aerial.pose) },
      },
    }));
  return (
    <FieldFrame id={id} path="aerial.device.id" label="Vehicle" problem={null}>
      <select
        id={id}
        value={held.id}
        onChange={(event) => {
          const device = EXAMPLE_DEVICES.find((one) => one.id === event.target.value);
          if (device !== undefined) take(device);
        }}
      >
        {!inLibrary && <option value={held.id}>{held.name}</option>}
        {EXAMPLE_DEVICES.map((device) => (
          <option key={device.id} value={device.id}>
            {device.name} (invented)
          </option>
        ))}
      </select>
    </FieldFrame>
  );
}

function posedWithin(device: Device, pose: { readonly elevationRad: number; readonly lengthM: number }) {
  return {
    elevationRad: Math.min(Math.max(pose.elevationRad, device.elevationMinRad), device.elevationMaxRad),
    lengthM: Math.min(Math.max(pose.lengthM, device.lengthMinM), device.lengthMaxM),
  };
}
