import { useDesk, usePlan } from "../state/desk-context.tsx";

/** The title of the sheet: the plan, its site and vehicle, and whether it is all invented. */
export function PlanName() {
  const name = usePlan((plan) => plan.name);
  const site = usePlan((plan) => plan.scene.name);
  const device = usePlan((plan) => plan.aerial.device.name);
  const storage = useDesk((desk) => desk.storage);
  return (
    <div className="plan-name">
      <h2>{name}</h2>
      <p>
        {site} · {device}
        {storage === "refused" && <strong> · not kept on this machine: save a file</strong>}
      </p>
    </div>
  );
}
