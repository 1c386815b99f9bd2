import { EXAMPLES, evaluate, momentPlan, type Plan } from "@gantline/plan";
import loadMujoco from "mujoco-js";
import { describe, expect, it } from "vitest";
import { frictionless, momentsOf, networkOf, ropeNM } from "./moment-network.ts";
import { buildInMujoco } from "./settle-in-mujoco.ts";

/**
 * Moments of both example evolutions against a general-purpose physics engine, MuJoCo (mujoco-js 0.0.7, double precision):
 * load and riding pulley as damped point masses on spatial tendons through sites, main lines as springs of the stiffness
 * and unstretched length found, taglines and tether drawn by the pull found. The engine has no sheave friction, so the plans
 * are made frictionless; tip sheaves stand where the evaluation puts them. Load place, rope tensions and the force of the
 * ropes on each tip sheave must agree. Half of each part of a rope weighs at each of its ends, on both sides.
 *
 * Tolerances. The riding pulley must have mass there and has none here: 10 g hang from ropes of some 500 N, which moves it
 * and the load by less than a millimetre (0.1 N over the least stiffness seen, about 100 N/m) and tensions by less than
 * 0.2 N. Without a pulley the engine is stopped at 1e-5 N left over; the softest way, a load of 100 kg as a pendulum on 25 m
 * of rope, is 40 N/m, so places agree to a micrometre and tensions to 1e-3 N.
 */
const MOMENTS = 20;
/** So short a step the ten grams of pulley need on a tackle that keeps its length, s. */
const STIFF_STEP_S = 1e-4;
const PULLED_N = 20;
const PULLEY_N = 0.0981;
const mujoco = await loadMujoco();
const span = (a: readonly number[], b: readonly number[]): number => Math.hypot(...a.map((x, i) => x - (b[i] ?? 0)));

describe.each(["crossing", "roof"])("the %s example, moment by moment", (key) => {
  const plan = frictionless(EXAMPLES.find((e) => e.key === key)?.plan as Plan);

  it("hangs where a general-purpose physics engine lets it hang, with the same tensions and forces at the tip", () => {
    let compared = 0;
    let withPulley = 0;
    for (const when of momentsOf(plan, MOMENTS)) {
      const then = momentPlan(plan, when);
      const e = evaluate(then);
      expect(e.holding.state).toBe("held");
      const built = buildInMujoco(mujoco, networkOf(then, e));
      const settled = built.settle(1e-5, 400_000);
      built.dispose();
      const pulled = e.tether !== null && e.tether.tensionN > 0;
      const placeM = pulled ? 1e-3 : 1e-6;
      const forceN = pulled ? 0.3 : 1e-3;
      const load = settled.places.load ?? [Number.NaN, 0, 0];
      const label = `stage ${when.stage + 1}, ${when.along}`;
      expect(Math.hypot(...load.map((c, i) => c - (e.load.yoke[i] ?? 0))), label).toBeLessThan(placeM);
      for (const line of e.lines) {
        const tensionN = settled.tensionsN[line.id] ?? Number.NaN;
        expect(Math.abs(tensionN - (line.tensionsN.raise[0] ?? 0)), `${label}, ${line.id}`).toBeLessThan(forceN);
      }
      // Without friction both travels are one; a stage that lowers has the forces of lowering.
      const felt = e.felt[e.cases[0] ?? "raise"]?.points ?? [];
      expect(felt, label).toHaveLength(then.rig.mainLines.length);
      for (const point of felt) {
        const line = e.lines.find((l) => then.rig.mainLines.find((m) => m.id === l.id)?.tip.pointId === point.pointId);
        const tip = line?.nodes[1]?.at;
        const next = line?.nodes[2];
        if (!line || !tip || !next) throw new Error("a rigging point without its line");
        const beyond = next.id === "rider" ? (settled.places.rider ?? next.at) : next.at;
        const tensionN = settled.tensionsN[line.id] ?? Number.NaN;
        const away = (p: readonly number[]) => {
          const d = p.map((c, i) => c - (tip[i] ?? 0));
          return d.map((c) => (c * tensionN) / Math.hypot(...d));
        };
        const [a, b] = [away(load), away(beyond)];
        // Rope hangs at the tip sheave by half of what runs to the load and to the first redirect; by half of what hangs of
        // the tether's tackle at its pulley, which rides two ropes that each hang from sheave and redirect.
        const spans = line.nodes.slice(0, next.id === "rider" ? 4 : 3).map((n) => n.at);
        const lengthM = spans.slice(1).reduce((m, p, i) => m + span(p, spans[i] ?? p), 0);
        const rides = then.rig.tether?.rides.length ?? 1;
        const tackleN =
          e.tether && next.id === "rider"
            ? (ropeNM(then, e.tether.id) * span(e.load.yoke, e.tether.pulleyAt)) / 2 / rides
            : 0;
        const ropeN = (ropeNM(then, line.id) * lengthM + tackleN) / 2;
        for (const axis of [0, 1, 2]) {
          const felt = (a[axis] ?? 0) + (b[axis] ?? 0) - (axis === 2 ? ropeN : 0);
          expect(Math.abs(felt - (point.forceN[axis] ?? 0)), label).toBeLessThan(2 * forceN);
        }
      }
      compared++;
      if (pulled) withPulley++;
    }
    expect(compared).toBe(MOMENTS);
    if (key === "roof") expect(withPulley).toBeGreaterThan(MOMENTS / 2);
  });
});

describe("a load that its lines do not hold, the ladder swung out of its plane", () => {
  const roof = frictionless(EXAMPLES.find((e) => e.key === "roof")?.plan as Plan);
  const { aerial } = roof;

  it.each([-0.12, 0.1])(
    "comes to rest where a general-purpose physics engine has it, swung by %d rad",
    (bearingRad) => {
      const pose = { ...aerial.pose, bearingRad: aerial.pose.bearingRad + bearingRad };
      const plan = { ...roof, aerial: { ...aerial, pose } };
      let compared = 0;
      for (const when of momentsOf(plan, 14)) {
        const then = momentPlan(plan, when);
        const e = evaluate(then);
        // A pulley that hardly anything pulls runs far for its ten grams.
        if (e.holding.state !== "drifts" || !(e.tether && e.tether.tensionN > PULLED_N)) continue;
        const built = buildInMujoco(mujoco, networkOf(then, e, "length"), { stepS: STIFF_STEP_S });
        const settled = built.settle(1e-5, 1_000_000);
        built.dispose();
        const label = `stage ${when.stage + 1}, ${when.along}`;
        expect(settled.residualN, label).toBeLessThan(1e-4);
        expect(span(settled.places.load ?? [Number.NaN, 0, 0], e.load.yoke), label).toBeLessThan(1e-3);
        // Its own weight draws the pulley along the ropes until the tether, turned by that much, holds it.
        const turnsM = (PULLEY_N * span(e.tether.pulleyAt, e.load.yoke)) / e.tether.tensionN;
        expect(span(settled.places.rider ?? [Number.NaN, 0, 0], e.tether.pulleyAt), label).toBeLessThan(4 * turnsM);
        for (const line of e.lines) {
          const tensionN = settled.tensionsN[line.id] ?? Number.NaN;
          expect(Math.abs(tensionN - (line.tensionsN.raise[0] ?? 0)), `${label}, ${line.id}`).toBeLessThan(0.3);
        }
        compared++;
      }
      expect(compared).toBeGreaterThan(5);
    },
  );
});
