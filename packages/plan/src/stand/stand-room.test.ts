import { expect, it } from "vitest";
import type { Plan } from "../schema/plan.ts";
import { standPlacement } from "./stand-placement.ts";
import { withRoom } from "./stand-room.ts";
import type { StandEntry } from "./stand-types.ts";
import { sweepStand } from "./sweep-stand.ts";
import { openGround } from "./testing/open-ground.ts";

const plan = openGround();

/** The plan's own stand, moved back along its ladder so far, listed without a sweep. */
function listed(backM: number, fit: StandEntry["fit"], id = plan.aerial.device.id): StandEntry {
  const { device, place, pose } = plan.aerial;
  const level = pose.lengthM * Math.cos(pose.elevationRad) + backM;
  const up = pose.lengthM * Math.sin(pose.elevationRad);
  return {
    ...sweepStand(plan),
    choice: {
      device: { ...device, id },
      turntable: [place.turntableX, place.turntableY - backM],
      headingRad: place.headingRad,
      pose: { bearingRad: pose.bearingRad, elevationRad: Math.atan2(up, level), lengthM: Math.hypot(level, up) },
    },
    aim: { id: "aim", name: "Aim", xM: 0, yM: 0, landingZM: null },
    bestBy: [],
    alsoServes: [],
    roomM: null,
    inFront: true,
    fit,
  };
}

const placed = ({ choice }: StandEntry): Plan => ({
  ...plan,
  aerial: {
    ...plan.aerial,
    device: choice.device,
    place: { ...plan.aerial.place, turntableX: choice.turntable[0], turntableY: choice.turntable[1] },
    pose: choice.pose,
  },
});

it("tells the room that the marks to paint tell, and which of a vehicle's stands has most", () => {
  const list = [listed(0, "fits"), listed(2, "fits"), listed(0, "fails"), listed(1, "fits", "other")];
  const [near, far, failing, other] = withRoom(plan, list) ?? [];
  for (const entry of [near, far, other]) {
    if (!entry) throw new Error("not told");
    const { area, heldToLoad } = standPlacement(placed(entry));
    expect(heldToLoad).toBe(true);
    expect(entry.roomM).toBe(area?.freeM);
  }
  expect(failing?.roomM).toBeNull();
  expect(near?.roomM).not.toBe(far?.roomM);
  const roomier = (near?.roomM ?? 0) > (far?.roomM ?? 0) ? near : far;
  const told = [near, far, failing].filter((e) => e?.bestBy.includes("roomiest"));
  expect(told).toEqual([roomier]);
  expect(other?.bestBy).toEqual(["roomiest"]);
});

it("ends when told to", () => {
  expect(withRoom(plan, [listed(0, "fits")], () => true)).toBeNull();
});
