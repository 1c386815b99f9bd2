import { describe, expect, it } from "vitest";
import { site } from "../base/vector.ts";
import { exampleLadder, examplePlace, examplePoint } from "./example-device.ts";
import { poseAerial } from "./pose-aerial.ts";
import { pathLengthM, ropePathChanges } from "./rope-path-change.ts";

describe("ropePathChanges", () => {
  it("measures a path", () => {
    expect(pathLengthM([site(0, 0, 0), site(3, 4, 0), site(3, 4, 12)])).toBe(17);
    expect(pathLengthM([site(1, 2, 3)])).toBe(0);
    expect(pathLengthM([])).toBe(0);
  });
  it("grows a return along the ladder by what the ladder runs out, and leaves a path off the ladder alone", () => {
    const pose = { bearingRad: 1, elevationRad: 1.1, lengthM: 20 };
    const before = poseAerial(exampleLadder, examplePlace, pose);
    const after = poseAerial(exampleLadder, examplePlace, { ...pose, lengthM: 24 });
    const changes = ropePathChanges(
      {
        back: [{ rigging: examplePoint }, { at: before.pivot }],
        ground: [{ at: site(0, 0, 0) }, { at: site(1, 0, 0) }],
      },
      before,
      after,
    );
    expect(changes.back).toMatchObject({
      beforeM: expect.closeTo(20, 9),
      afterM: expect.closeTo(24, 9),
      changeM: expect.closeTo(4, 9),
    });
    expect(changes.ground.changeM).toBe(0);
    const back = ropePathChanges({ back: [{ rigging: examplePoint }, { at: before.pivot }] }, after, before);
    expect(back.back.changeM).toBe(-changes.back.changeM);
  });
});
