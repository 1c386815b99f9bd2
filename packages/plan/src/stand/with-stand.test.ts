import {
  assessStand,
  cellMiddle,
  distance,
  poseOfStand,
  type SiteVector,
  site,
  standAt,
  standGrid,
} from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import { deviceById } from "../library/device-by-id.ts";
import { anchorageAt } from "../rig/lay-lines.ts";
import type { Plan } from "../schema/plan.ts";
import { facingAsNow } from "./as-now.ts";
import { standCandidates } from "./stand-candidates.ts";
import { sweepStand } from "./sweep-stand.ts";
import { openGround, searched } from "./testing/open-ground.ts";
import { withStand } from "./with-stand.ts";

const CHOICE = {
  device: crossingExample.aerial.device,
  turntable: [2, -3] as const,
  headingRad: 2.5,
  pose: { bearingRad: 6.1, elevationRad: 1.1, lengthM: 25 },
};

describe("withStand", () => {
  it("takes place, heading and pose, on the ground drawn there, and changes nothing it was given", () => {
    const frozen = JSON.stringify(crossingExample);
    const plan = withStand(crossingExample, CHOICE);
    expect(JSON.stringify(crossingExample)).toBe(frozen);
    expect(plan.aerial.pose).toEqual(CHOICE.pose);
    // The yard falls 0.01 rad southward from its south-west corner at 0: uphill to the north, 11 m of it.
    expect(plan.aerial.place.groundZM).toBeCloseTo(Math.tan(0.01) * 11, 9);
    expect(evaluate(plan).ledger.find((c) => c.id === "ground-level")?.status).toBe("within");
  });

  it("moves what is made fast to the vehicle as one body, and nothing else", () => {
    const ground = { on: "ground" as const, position: [5, 9, 0] as [number, number, number] };
    const [main, ...mains] = crossingExample.rig.mainLines;
    if (!main) throw new Error("no main line");
    const anchored: Plan = {
      ...crossingExample,
      rig: {
        ...crossingExample.rig,
        mainLines: [
          {
            ...main,
            brake: { ...main.brake, anchorage: { ...ground, ratingN: null, ratingBasis: null, ratingSource: "" } },
          },
          ...mains,
        ],
      },
    };
    const after = withStand(anchored, CHOICE);
    const ends = (plan: Plan): SiteVector[] =>
      plan.rig.mainLines.flatMap((l) => l.redirects.map((r) => anchorageAt(plan, r.anchorage) ?? site(0, 0, 0)));
    const [was, is] = [ends(anchored), ends(after)];
    expect(is).toHaveLength(4);
    for (const [i, a] of is.entries()) {
      expect(distance(a, was[i] ?? site(0, 0, 0))).toBeGreaterThan(1);
      for (const [k, b] of is.entries()) expect(distance(a, b)).toBeCloseTo(distance(was[i] ?? a, was[k] ?? b), 9);
    }
    expect(after.rig.mainLines[0]?.brake).toEqual(anchored.rig.mainLines[0]?.brake);
    expect(after.rig.taglines).toEqual(anchored.rig.taglines);
    expect(after.evolution).toEqual(anchored.evolution);
    expect(after.rig.load.positionM).toEqual(anchored.rig.load.positionM);
  });

  it("carries a load that hangs plumb", () => {
    const plan = openGround();
    const plumb = withStand(plan, {
      ...CHOICE,
      device: plan.aerial.device,
      turntable: [0, -9],
      headingRad: Math.PI,
      pose: plan.aerial.pose,
    });
    const tip = evaluate(plumb).geometry.riggingPoints.filter((p) => p.used);
    const middle = tip.reduce((s, p) => s + p.at[1], 0) / tip.length;
    const hung = withStand(
      { ...plumb, rig: { ...plumb.rig, load: { ...plumb.rig.load, positionM: [0, middle, 6] } } },
      {
        ...CHOICE,
        turntable: [0, -12],
        headingRad: Math.PI,
        pose: plan.aerial.pose,
        device: plan.aerial.device,
      },
    );
    expect(hung.rig.load.positionM[1]).toBeCloseTo(middle - 3, 9);
  });

  it("keeps what an empty ladder that moves last is changed by, within its limits", () => {
    const stow = (plan: Plan) => plan.evolution.stages.at(-1)?.pose;
    const plan = withStand(roofExample, { ...CHOICE, pose: { bearingRad: 0.2, elevationRad: 1, lengthM: 26 } });
    const change = (stow(roofExample)?.elevationRad ?? 0) - roofExample.aerial.pose.elevationRad;
    expect(stow(plan)?.elevationRad).toBeCloseTo(1 + change, 9);
    expect(stow(plan)?.lengthM).toBeCloseTo(26 + 22 - 27.5, 9);
    expect(stow(plan)?.bearingRad).toBeCloseTo(0.2, 9);
  });

  it("brings the rigging points to the same place of the site where something hangs after the move", () => {
    const [first] = roofExample.evolution.stages;
    if (!first) throw new Error("no stage");
    const pose = { bearingRad: 0.15, elevationRad: 1.1, lengthM: 27 };
    const moved: Plan = {
      ...roofExample,
      evolution: {
        ...roofExample.evolution,
        stages: [{ ...first, id: "swing", action: "moveLadder", pose }, ...roofExample.evolution.stages],
      },
    };
    const after = withStand(moved, {
      ...CHOICE,
      turntable: [0.5, -0.5],
      headingRad: 1.5,
      pose: roofExample.aerial.pose,
    });
    const hangs = (plan: Plan) => {
      const set = plan.evolution.stages[0]?.pose ?? plan.aerial.pose;
      const points = evaluate({ ...plan, aerial: { ...plan.aerial, pose: set } }).geometry.riggingPoints.filter(
        (p) => p.used,
      );
      return [0, 1, 2].map((k) => points.reduce((s, p) => s + (p.at[k] ?? 0), 0) / points.length);
    };
    for (const k of [0, 1, 2]) expect(hangs(after)[k]).toBeCloseTo(hangs(moved)[k] ?? Number.NaN, 6);
  });

  it("leaves what another vehicle does not have unknown", () => {
    const other = {
      ...deviceById("example-ladder-23"),
      jacks: deviceById("example-ladder-23").jacks.map((j) => ({ ...j, id: `new-${j.id}` })),
    };
    const plan = withStand(crossingExample, { ...CHOICE, device: other });
    expect(evaluate(plan).ledger.filter((c) => c.rule === "jacks" && c.status === "unknown").length).toBeGreaterThan(3);
  });
});

const searchedOpenGround = openGround();

describe.each([
  ["crossing", crossingExample],
  ["roof", roofExample],
  ["open ground", searchedOpenGround],
])("a stand of the search taken into the %s plan", (_, plan) => {
  const { asked, bands } = searched(plan, { steps: { cellM: 1 } });
  const candidates = standCandidates(plan, [{ asked, bands }]).slice(0, 8);

  it("stands and reaches as the search has it", () => {
    expect(candidates.length).toBeGreaterThanOrEqual(3);
    for (const { candidate, choice } of candidates) {
      const { geometry } = evaluate(withStand(plan, choice));
      const used = geometry.riggingPoints.filter((p) => p.used);
      for (const k of [0, 1, 2] as const) {
        const at = used.reduce((s, p) => s + p.at[k], 0) / used.length;
        expect(at).toBeCloseTo(candidate.point[k], 6);
      }
    }
  });

  it("has the figures of the search: elevation and length exactly, clearance to 1e-6 m", () => {
    for (const { candidate, choice } of candidates) {
      const { figures, status } = assessStand(asked.question, candidate);
      expect(status).toBe("feasible");
      const taken = withStand(plan, choice);
      expect(taken.aerial.pose.elevationRad).toBeCloseTo(figures.steepest ?? 0, 9);
      expect(taken.aerial.pose.lengthM).toBeCloseTo(figures.shortest ?? 0, 9);
      const { ledger } = evaluate(taken);
      const spares = ledger
        .filter((c) => c.id.startsWith("clearance/ladder/") || c.id.startsWith("power-line/power/ladder/"))
        .map((c) => (c.limit?.value ?? Number.NaN) - (c.demand?.value ?? Number.NaN));
      const spare = Math.min(asked.question.clearanceCountedM, ...spares);
      expect(Math.abs(spare - (figures.clearest ?? Number.NaN))).toBeLessThan(1e-6);
      if (plan.evolution.stages.length === 0) {
        const used = ledger.find((c) => c.id === "tip-rating/resultant")?.ratio ?? Number.NaN;
        // The search takes the demand from a table by bearing, elevation and height, straight between its entries.
        const share = used / (figures.leastUsed ?? Number.NaN);
        expect(share).toBeLessThan(1.02);
        expect(share).toBeGreaterThan(0.9);
      }
      // What stands in the way of the vehicle is judged alike.
      expect(
        ledger.filter((c) => /^(parking|slope|reach|elevation|jack-ground)/.test(c.id)).map((c) => c.status),
      ).not.toContain("over");
    }
  });

  it("uses of the rating over the whole evolution what the search has, at every height, and says where nothing holds the load", () => {
    const { question, device } = asked;
    const { minZM, maxZM, xM, yM } = question.target;
    const cells = [...(bands[0]?.cells ?? [])].filter((_, i) => bands[0]?.status[i] === 0);
    let checked = 0;
    let notHeld = 0;
    for (const [h, up] of [0, 0.3, 0.6, 1, 1.5, 2, 3, 5, 8, 12, 15, 18].entries()) {
      if (minZM + up > maxZM) continue;
      const spread = [0, 1, 2].map((k) =>
        cellMiddle(standGrid(question), cells[Math.floor(((k + 0.5) * cells.length) / 3)] ?? 0),
      );
      // Of a load drawn in by a tether also places in line with its way, where alone it is held.
      const places = plan === roofExample ? [...spread, [0, -1.25] as const, [0.1, 0] as const] : spread;
      for (const [k, turntable] of places.entries()) {
        const bare = { ...question, ...BARE };
        const over = { turntable, headingRad: 0, point: [xM, yM, minZM + up] as const };
        const candidate = facingAsNow(plan, bare, over) ?? { ...over, headingRad: Math.PI / 2 };
        const posed = poseOfStand(question, candidate);
        if (!posed) continue;
        const { reason, figures, status } = assessStand(bare, candidate);
        const used =
          figures.leastUsed ?? (reason?.check === "rating" ? (reason.value ?? 0) / (reason.limit ?? 1) : null);
        const isHeld = reason?.check !== "nothingHolds" && reason?.check !== "loadWay";
        if (used === null && isHeld) continue;
        const stand = { device, turntable, headingRad: candidate.headingRad, pose: posed.pose };
        if (!isHeld) {
          expect(status).toBe("rejected");
          notHeld++;
          // Most of these are much alike: at every height one is swept, in turn.
          if ((h + k) % 3 === 0) expect(sweepStand(withStand(plan, stand)).fit).not.toBe("fits");
          continue;
        }
        const swept = sweepStand(withStand(plan, stand));
        if (swept.figures.utilisation === null || used === null) continue;
        const ratio = swept.figures.utilisation / used;
        // Too much where the load is nearly level with the tip.
        expect(ratio, `${up} m up`).toBeLessThan(1.02);
        expect(ratio, `${up} m up`).toBeGreaterThan(up < 2 ? 0.8 : 0.95);
        checked++;
      }
    }
    expect(checked).toBeGreaterThan(2);
    if (plan !== searchedOpenGround) expect(notHeld).toBeGreaterThan(1);
  });
});

describe("a load drawn in by a tether", () => {
  const { asked, bands } = searched(roofExample, { steps: { cellM: 0.5 } });
  const { question, device } = asked;
  const { xM, yM, toleranceM } = question.target;

  it("is held only with the ladder along its way, and tall enough for the tackle", () => {
    // Found by an audit: these were given half of the rating where a sweep finds no balance.
    for (const [x, y, z] of [
      [0.25, -1.25, 16.15],
      [0, 0, 18],
      [0, 0, 22],
      [0, 0, 24],
      [4, 0, 27],
      [-8, 0, 29],
    ] as const) {
      const { status, reason } = assessStand(question, {
        turntable: [x, y],
        headingRad: Math.PI / 2,
        point: [xM, yM, z],
      });
      expect(status, `${x}, ${y}, ${z}`).toBe("rejected");
      expect(reason?.check).toMatch(/nothingHolds|loadWay/);
    }
  });

  it("holds in most of the cells that fit, with the tip moved within its tolerance", () => {
    const band = bands[0] ?? expect.unreachable();
    const fitting = [...band.cells.keys()].filter((i) => band.status[i] === 0);
    expect(fitting.length).toBeGreaterThan(5);
    let held = 0;
    for (const i of fitting) {
      // More than half: whatever the others do.
      if (held > 0.5 * fitting.length) break;
      const stand =
        standAt(question, band.cells[i] ?? 0, band.best.clearest.candidate[i] ?? -1) ?? expect.unreachable();
      // Its ladder points north: outward, and to either side.
      const holds = [
        [0, 1],
        [0, 0],
        [-1, 0.5],
        [1, 0.5],
      ].some(([east = 0, north = 0]) => {
        const point = [xM + east * toleranceM, yM + north * toleranceM, stand.point[2]] as const;
        const posed = poseOfStand(question, { ...stand, point });
        if (!posed) return false;
        const choice = { device, turntable: stand.turntable, headingRad: stand.headingRad, pose: posed.pose };
        const { worst } = sweepStand(withStand(roofExample, choice));
        return worst?.status !== "over" || !/^(holding|tether|tip-rating|clearance.loadToLadder)/.test(worst.id);
      });
      if (holds) held++;
    }
    expect(held / fitting.length).toBeGreaterThan(0.5);
  });
});

/** Nothing in the way: what is left is reach and rating. */
const BARE = { keepOuts: [], obstacles: [], bodyObstacles: [], wires: [], slopeLimitRad: 1 };
