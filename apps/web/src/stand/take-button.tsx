import type { StandChoice } from "@gantline/plan";
import { useDesk } from "../state/desk-context.tsx";
import { useStandActions } from "./use-stand.ts";

/** Takes a stand into the plan: one step, which Undo takes back. */
export function TakeButton({ choice, what }: { readonly choice: StandChoice; readonly what: string }) {
  const actions = useStandActions();
  const taken = useDesk(({ history }) => isTaken(history.present.aerial, choice));
  return (
    <button
      type="button"
      className="take"
      disabled={taken}
      aria-label={taken ? `In the plan: ${what}` : `Take into the plan: ${what}`}
      onClick={() => actions.take(choice)}
    >
      {taken ? "In the plan" : "Take into the plan"}
    </button>
  );
}

interface Aerial {
  readonly device: { readonly id: string };
  readonly place: { readonly turntableX: number; readonly turntableY: number; readonly headingRad: number };
  readonly pose: { readonly elevationRad: number; readonly lengthM: number; readonly bearingRad: number };
}

const NEAR = 1e-6;

function isTaken({ device, place, pose }: Aerial, choice: StandChoice): boolean {
  const turn = (a: number, b: number): number => Math.abs(Math.sin((a - b) / 2));
  return (
    device.id === choice.device.id &&
    Math.hypot(place.turntableX - choice.turntable[0], place.turntableY - choice.turntable[1]) < NEAR &&
    turn(place.headingRad, choice.headingRad) < NEAR &&
    turn(pose.bearingRad, choice.pose.bearingRad) < NEAR &&
    Math.abs(pose.elevationRad - choice.pose.elevationRad) < NEAR &&
    Math.abs(pose.lengthM - choice.pose.lengthM) < NEAR
  );
}
