import { type Evaluation, EXAMPLES, evaluate, evolve, letOuts, momentPlan, type Plan } from "@gantline/plan";
import { describe, expect, it } from "vitest";
import { drawPlan } from "./plan-view.ts";
import type { Primitive, WorldPoint } from "./primitives.ts";
import { drawSection } from "./section.ts";
import { sweptStages } from "./shared/swept-stages.ts";

const BEARINGS = new Set(["bearingRad", "headingRad", "downhillBearingRad", "fromBearingRad"]);
const SIDES = new Set(["rightM", "lateralM", "turntableX"]);
const PLACES = new Set(["position", "positionM", "handler", "startM"]);
const OUTLINES = new Set(["outline", "wire", "path"]);

/** The same plan seen in a mirror that stands north and south: east is west, right is left. */
function mirrored<T>(value: T, name = ""): T {
  if (typeof value === "number")
    return (BEARINGS.has(name) ? (2 * Math.PI - value) % (2 * Math.PI) : SIDES.has(name) ? -value : value) as T;
  if (Array.isArray(value)) {
    if (PLACES.has(name)) return value.map((v: number, i) => (i === 0 ? -v : v)) as T;
    if (OUTLINES.has(name)) return value.map((p) => mirrored(p, "position")) as T;
    return value.map((v) => mirrored(v)) as T;
  }
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([k, v]) => [
      k,
      name === "outline"
        ? v
        : k === "outline" && !Array.isArray(v)
          ? { ...v, leftM: v.rightM, rightM: v.leftM }
          : mirrored(v, k),
    ]),
  ) as T;
}

/** Every place a primitive puts ink at, with what it is. Texts are left out: they say east where the mirror says west. */
const inkOf = (primitives: readonly Primitive[]): readonly { kind: string; at: WorldPoint }[] =>
  primitives.flatMap((p) => {
    const points: readonly WorldPoint[] =
      p.kind === "path"
        ? p.points
        : p.kind === "paths"
          ? p.parts.flat()
          : p.kind === "strokes"
            ? p.lines.flat()
            : p.kind === "arrow"
              ? [p.from, p.to]
              : p.kind === "dimension"
                ? [p.a, p.b]
                : p.kind === "text"
                  ? []
                  : [p.at];
    return points.map((at) => ({ kind: p.kind, at }));
  });

/** Those of the first for which the second has nothing of the same kind at the same place. */
const missing = (a: ReturnType<typeof inkOf>, b: ReturnType<typeof inkOf>, withinM = 1e-6) =>
  a.filter(
    ({ kind, at }) =>
      !b.some((other) => other.kind === kind && Math.hypot(other.at[0] - at[0], other.at[1] - at[1]) < withinM),
  );

const flipped = (ink: ReturnType<typeof inkOf>): ReturnType<typeof inkOf> =>
  ink.map(({ kind, at: [x, y] }) => ({ kind, at: [-x, y] as const }));

/** Turned a little, so that nothing lies in the mirror's own plane. */
const turned = (plan: Plan): Plan => ({
  ...plan,
  aerial: { ...plan.aerial, pose: { ...plan.aerial.pose, bearingRad: plan.aerial.pose.bearingRad + 0.05 } },
});

/** Without the witness lines of clearances: between faces side by side any of many points is nearest. */
const evaluated = (plan: Plan): Evaluation => ({ ...evaluate(plan), clearances: [] });

describe.each(EXAMPLES.map((e) => [e.key, turned(e.plan)] as const))("the mirrored scene of %s", (_, plan: Plan) => {
  const other = mirrored(plan);
  const before = evaluated(plan);
  const after = evaluated(other);

  it("gives the mirrored plan", () => {
    const a = inkOf(drawPlan(plan, before, { system: "metric" }).primitives);
    const b = flipped(inkOf(drawPlan(other, after, { system: "metric" }).primitives));
    expect(a.length).toBeGreaterThan(100);
    expect(b.length).toBe(a.length);
    expect(missing(a, b)).toEqual([]);
    expect(missing(b, a)).toEqual([]);
  });

  it("gives the same section: what lay beyond lies on this side", () => {
    const a = inkOf(drawSection(plan, before, { system: "metric" }).primitives);
    const b = inkOf(drawSection(other, after, { system: "metric" }).primitives);
    expect(a.length).toBeGreaterThan(100);
    expect(missing(a, b)).toEqual([]);
    expect(missing(b, a)).toEqual([]);
  });

  it("gives the mirrored way, swing and swept space at a moment of its evolution", () => {
    const when = { stage: 3, along: 0.4 };
    const drawn = (of: Plan) => {
      const then = momentPlan(of, when);
      const evaluation = evaluated(then);
      const options = {
        system: "metric",
        evolution: when,
        letOut: letOuts(then)[0]?.lineId ?? null,
        swept: sweptStages(of, evolve(of)),
      } as const;
      return [drawSection(then, evaluation, options), drawPlan(then, evaluation, options)] as const;
    };
    const [section, site] = drawn(plan);
    const [otherSection, otherSite] = drawn(other);
    for (const title of ["Way of the yoke", "Swing", "Swept by the load", "Swept by Main A"])
      expect(site.primitives.some((p) => "title" in p && p.title?.startsWith(title))).toBe(true);
    const loose = 1e-5;
    const a = inkOf(site.primitives);
    const b = flipped(inkOf(otherSite.primitives));
    expect(missing(a, b, loose)).toEqual([]);
    expect(missing(b, a, loose)).toEqual([]);
    expect(missing(inkOf(section.primitives), inkOf(otherSection.primitives), loose)).toEqual([]);
  });
});
