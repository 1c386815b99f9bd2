import type { InputProblem } from "@gantline/engine";
import { soundOutline } from "./place-geometry.ts";
import { gearOf } from "./rig/gear-of.ts";
import { PERSON_KINDS } from "./rig/sum-load.ts";
import type { GearKind } from "./schema/gear.ts";
import type { Plan } from "./schema/plan.ts";
import type { LimitName } from "./schema/policy.ts";
import type { Tether } from "./schema/rig.ts";

/** Shares may miss 1 by this much, for rounding. */
const SHARES_WITHIN = 1e-6;

/**
 * What is wrong with a plan that its schema alone cannot see: outlines that cross themselves, references to nothing, shares
 * that do not make 1, limits that limit nothing, people without weight, ropes whose length nothing tells.
 */
export function findProblems(plan: Plan): readonly InputProblem[] {
  return [
    ...outlines(plan),
    ...references(plan),
    ...shares(plan),
    ...ranges(plan),
    ...twins(plan),
    ...limits(plan),
    ...weightless(plan),
    ...drives(plan),
  ];
}

function outlines({ scene }: Plan): InputProblem[] {
  const all = [
    ...scene.structures.map((s, i) => ({ path: `scene.structures[${i}].outline`, outline: s.outline })),
    ...scene.parking.map((s, i) => ({ path: `scene.parking[${i}].outline`, outline: s.outline })),
    ...scene.areas.map((s, i) => ({ path: `scene.areas[${i}].outline`, outline: s.outline })),
  ];
  return all
    .filter((o) => !soundOutline(o.outline))
    .map((o) => ({
      path: o.path,
      got: "an outline that crosses itself or encloses nothing",
      expected: "a simple outline",
    }));
}

/** A piece of gear named where it is used. */
interface Use {
  readonly path: string;
  readonly kind: GearKind;
  readonly id: string | null;
}

function references(plan: Plan): InputProblem[] {
  const { load, tether } = plan.rig;
  const uses: Use[] = [
    { path: "rig.load.yoke", kind: "yoke", id: load.yoke },
    { path: "rig.load.bridle.sling", kind: "sling", id: load.bridle.sling },
    { path: "rig.load.bridle.connector", kind: "connector", id: load.bridle.connector },
    { path: "rig.load.litter", kind: "litter", id: load.litter },
    ...plan.rig.mainLines.flatMap((l, i): Use[] => {
      const at = `rig.mainLines[${i}]`;
      return [
        { path: `${at}.rope`, kind: "rope", id: l.rope },
        { path: `${at}.loadKnot`, kind: "knot", id: l.loadKnot },
        { path: `${at}.loadConnector`, kind: "connector", id: l.loadConnector },
        { path: `${at}.tip.sheave`, kind: "sheave", id: l.tip.sheave },
        { path: `${at}.tip.connector`, kind: "connector", id: l.tip.connector },
        { path: `${at}.tip.sling`, kind: "sling", id: l.tip.sling },
        ...l.redirects.flatMap((r, k): Use[] => [
          { path: `${at}.redirects[${k}].sheave`, kind: "sheave", id: r.sheave },
          { path: `${at}.redirects[${k}].connector`, kind: "connector", id: r.connector },
          { path: `${at}.redirects[${k}].sling`, kind: "sling", id: r.sling },
        ]),
        { path: `${at}.brake.device`, kind: "brake", id: l.brake.device },
        { path: `${at}.brake.connector`, kind: "connector", id: l.brake.connector },
      ];
    }),
    ...plan.rig.taglines.flatMap((l, i): Use[] => [
      { path: `rig.taglines[${i}].rope`, kind: "rope", id: l.rope },
      { path: `rig.taglines[${i}].knot`, kind: "knot", id: l.knot },
      { path: `rig.taglines[${i}].connector`, kind: "connector", id: l.connector },
    ]),
    ...(tether ? tetherUses(tether) : []),
  ];
  const ridden = (tether?.rides ?? []).flatMap((id, i): InputProblem[] =>
    plan.rig.mainLines.some((l) => l.id === id)
      ? []
      : [{ path: `rig.tether.rides[${i}]`, got: `"${id}"`, expected: "the id of a main line" }],
  );
  return [
    ...uses
      .filter((u) => u.id !== null && gearOf(plan, u.kind, u.id) === null)
      .map((u) => ({ path: u.path, got: `"${u.id}"`, expected: `the id of a ${u.kind} in the gear cache` })),
    ...ridden,
  ];
}

const tetherUses = ({ rope, knot, connector, pulley }: Tether): Use[] => [
  { path: "rig.tether.rope", kind: "rope", id: rope },
  { path: "rig.tether.knot", kind: "knot", id: knot },
  { path: "rig.tether.connector", kind: "connector", id: connector },
  { path: "rig.tether.pulley", kind: "sheave", id: pulley },
];

function shares({ rig }: Plan): InputProblem[] {
  const total = rig.mainLines.reduce((sum, l) => sum + l.share, 0);
  return Math.abs(total - 1) <= SHARES_WITHIN
    ? []
    : [
        {
          path: "rig.mainLines[0].share",
          got: `shares that make ${total.toFixed(2)}`,
          expected: "shares of all main lines that make 1",
        },
      ];
}

function ranges({ aerial, scene }: Plan): InputProblem[] {
  const { device } = aerial;
  const found: InputProblem[] = [];
  const ordered = (path: string, low: number, high: number): void => {
    if (!(low <= high)) found.push({ path, got: `${high}`, expected: `no less than ${low}` });
  };
  ordered("aerial.device.lengthMaxM", device.lengthMinM, device.lengthMaxM);
  ordered("aerial.device.elevationMaxRad", device.elevationMinRad, device.elevationMaxRad);
  if (device.kind === "platform" && device.platform === null) {
    const expected = "its measures, as the device is a platform: clearances rest on them";
    found.push({ path: "aerial.device.platform", got: "nothing", expected });
  }
  for (const [i, row] of device.tipRating.rows.entries()) {
    ordered(`aerial.device.tipRating.rows[${i}].elevationMaxRad`, row.elevationMinRad, row.elevationMaxRad);
    ordered(`aerial.device.tipRating.rows[${i}].lengthMaxM`, row.lengthMinM, row.lengthMaxM);
  }
  for (const [i, s] of scene.structures.entries()) ordered(`scene.structures[${i}].topZM`, s.baseZM, s.topZM);
  return found;
}

/** Two things of one list with one id could not be told apart. */
function twins(plan: Plan): InputProblem[] {
  const { device } = plan.aerial;
  const lists: readonly (readonly [string, readonly { readonly id: string }[]])[] = [
    ["scene.structures", plan.scene.structures],
    ["scene.parking", plan.scene.parking],
    ["scene.areas", plan.scene.areas],
    ["scene.powerLines", plan.scene.powerLines],
    ["aerial.device.riggingPoints", device.riggingPoints],
    ["aerial.device.anchors", device.anchors],
    ["aerial.device.jacks", device.jacks],
    ["rig.load.parts", plan.rig.load.parts],
    ["rig.mainLines", plan.rig.mainLines],
    ["rig.taglines", plan.rig.taglines],
    ["evolution.stages", plan.evolution.stages],
    ["gear", plan.gear],
  ];
  return lists.flatMap(([path, list]) => {
    const seen = new Set<string>();
    return list.flatMap(({ id }, i) => {
      if (!seen.has(id)) {
        seen.add(id);
        return [];
      }
      return [{ path: `${path}[${i}].id`, got: `"${id}" a second time`, expected: "an id of its own" }];
    });
  });
}

/** A factor below 1 lets a part carry more than its strength. */
const FACTORS = [
  "strengthFactor",
  "structuralFactor",
  "stabilityFactor",
  "peakStrengthFactor",
  "peakRatingFactor",
] as const satisfies readonly LimitName[];

/** What may not be more than this, or nothing is judged by it; zero is no figure either. */
const AT_MOST: readonly (readonly [name: LimitName, most: number, expected: string])[] = [
  ["closeRatio", 1, "more than 0 and at most 1: over 1 is over the limit"],
  ["shareMax", 1, "more than 0 and at most 1, the whole load"],
  ["basketFactor", 2, "more than 0 and at most 2: two legs carry"],
  ["chokerFactor", 1, "more than 0 and at most 1: a choked sling is no stronger than a straight one"],
];

function limits({ policy }: Plan): InputProblem[] {
  const found: InputProblem[] = [];
  const refuse = (name: LimitName, got: number, expected: string): void => {
    found.push({ path: `policy.${name}.value`, got: `${got}`, expected });
  };
  for (const name of FACTORS) {
    const { value } = policy[name];
    if (value !== null && value < 1) refuse(name, value, "no less than 1: a force may not be more than what holds it");
  }
  for (const [name, most, expected] of AT_MOST) {
    const { value } = policy[name];
    if (value !== null && !(value > 0 && value <= most)) refuse(name, value, expected);
  }
  if (policy.attendantMassKg.value === 0) refuse("attendantMassKg", 0, WEIGHS);
  return found;
}

const WEIGHS = "more than 0: a person weighs something; null where it is not known";

const weightless = ({ rig }: Plan): InputProblem[] =>
  rig.load.parts.flatMap((p, i) =>
    PERSON_KINDS.has(p.kind) && p.massKg === 0
      ? [{ path: `rig.load.parts[${i}].massKg`, got: "0", expected: WEIGHS, unit: "kg" }]
      : [],
  );

/** Hung by the length of its ropes, the load goes where they let it: no pull is worked out to hold it. */
function drives({ rig }: Plan): InputProblem[] {
  if (rig.load.drive !== "length") return [];
  const lines = [
    ...rig.taglines.map((line, i) => ({ line, path: `rig.taglines[${i}].drive` })),
    ...(rig.tether ? [{ line: rig.tether, path: "rig.tether.drive" }] : []),
  ];
  return lines
    .filter(({ line }) => line.drive === "asNeeded")
    .map(({ path }) => ({
      path,
      got: "as needed",
      expected: "a pull or a length: while the load hangs by the length of its ropes, no pull is worked out for it",
    }));
}
