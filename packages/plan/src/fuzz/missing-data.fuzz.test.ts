import { describe, expect, it } from "vitest";
import type { Check } from "../check.ts";
import { ruleAt } from "../edit/schema-at.ts";
import { evaluate } from "../evaluate.ts";
import type { Evaluation } from "../evaluation.ts";
import { EXAMPLES } from "../examples/all-examples.ts";
import { deviceById } from "../library/device-by-id.ts";
import { readPlan } from "../read-plan.ts";
import type { Plan } from "../schema/plan.ts";
import type { LimitName } from "../schema/policy.ts";
import { asReal } from "./as-real.ts";
import { type JsonPath, pathName, pathsOf, valueAt, withValue } from "./json-path.ts";
import { mutatePlan } from "./mutate-plan.ts";
import { seededRandom } from "./seeded-random.ts";

/**
 * Missing data is never good. For a plan and the same plan with something not known:
 * 1. it is not ready for release unless nothing is judged otherwise than before;
 * 2. no check that was over or unknown is good now;
 * 3. no check that counts is good with a number missing from its working.
 * What the figures below list is the whole of what is allowed beside that, each with its reason.
 */

/** Fields where null does not stand for a number that is needed. */
const NOT_MISSING: readonly (readonly [field: RegExp, why: string])[] = [
  [/^rig\.load\.litter$/, "null: there is no litter"],
  [/\.sling$/, "null: there is no sling"],
  [/^rig\.tether$/, "null: there is no tether, and the returning ropes run straight"],
  [/^policy\.windMaxMS\.value$/, "null: the department sets none; the maker's holds"],
  [/^policy\.slopeMaxRad\.value$/, "null: the department sets none; the maker's holds"],
  [/^aerial\.device\.sideRatingN$/, "null: the maker publishes none; the policy's limit on the angle holds"],
  [/^policy\.closeRatio\.value$/, "0.9 where none is set"],
  [/^policy\.attendantMassKg\.value$/, "asks what would be, and does not count"],
  [/^scene\.(casualty|destination)$/, "null: no such place, so it is no landing and its roof is an obstacle"],
];

/** Fields that are left out of the forces or the geometry where they are not known; one check says so and counts. */
const STANDS_IN: readonly (readonly [field: RegExp, check: string, isUsed: (plan: Plan) => boolean])[] = [
  [/^aerial\.device\.sections$/, "missing-data/entry.", (plan) => plan.aerial.useSag],
  [/^aerial\.device\.platform$/, "missing-data/entry.", (plan) => plan.aerial.device.kind === "platform"],
];

/** Checks that may be good with a term of their working not known. */
const TERM_NOT_NEEDED: readonly (readonly [check: RegExp, why: string])[] = [
  [/^wind$/, "the policy's limit stands in it, and need not be set"],
  [/^persons$/, "counts heads; masses are listed beside them"],
  [/^sharing$/, "by the shares entered where no force is known"],
  [/^sling-angle$/, "a plumb leg has no angle to judge"],
];

/** By how much a ratio may change, with everything judged as before, where a field is not known; the stand-in that is taken moves little. */
const MOVES_LITTLE: readonly (readonly [field: RegExp, by: number, applies: (plan: Plan) => boolean, why: string])[] = [
  [
    /^gear\[\d+\]\.staticStiffnessN$/,
    0.03,
    (plan) => plan.rig.load.drive === "position",
    "taken as hardly stretching: moves a load that is all but held by millimetres",
  ],
];

const isGood = ({ status }: Pick<Check, "status">): boolean => status === "within" || status === "close";
const isReady = ({ worst }: Evaluation): boolean => isGood(worst);
const listed = (list: readonly (readonly [RegExp, string])[], name: string): boolean =>
  list.some(([field]) => field.test(name));
/** Is every check judged alike, ratios to within so much? */
const judgedAlike = (a: Evaluation, b: Evaluation, within: number): boolean => {
  const others = new Map(b.ledger.map((c) => [c.id, c]));
  return (
    a.ledger.length === b.ledger.length &&
    a.ledger.every(({ id, status, ratio }) => {
      const other = others.get(id);
      return other?.status === status && Math.abs((other.ratio ?? -1) - (ratio ?? -1)) <= within;
    })
  );
};

/** What is wrong with how a plan is judged once these fields are not known, beside how it was judged before. */
function faults(plan: Plan, before: Evaluation, paths: readonly JsonPath[]): readonly string[] {
  const fields = paths.map(pathName);
  const after = evaluate(without(plan, paths));
  const found: string[] = [];
  const was = new Map(before.ledger.map((c) => [c.id, c]));
  const missing = fields.filter((f) => !listed(NOT_MISSING, f));
  const standIns = missing.flatMap((f) =>
    STANDS_IN.filter(([field, , isUsed]) => field.test(f) && isUsed(plan)).map(([, check]) => check),
  );
  const moves = fields.map((f) => MOVES_LITTLE.find(([field, , applies]) => field.test(f) && applies(plan))?.[1] ?? 0);
  if (missing.length === fields.length && isReady(after) && !judgedAlike(before, after, Math.max(...moves, 0)))
    found.push("ready");
  for (const check of after.ledger.filter((c) => c.counts && isGood(c))) {
    const earlier = was.get(check.id);
    if (missing.length === fields.length && standIns.length === 0 && earlier && !isGood(earlier)) {
      found.push(`${check.id} was ${earlier.status}, is ${check.status}`);
    }
    if (check.working.terms.some((t) => t.value === null) && !listed(TERM_NOT_NEEDED, check.id)) {
      found.push(`${check.id} is ${check.status} with a number missing`);
    }
    if (check.ratio !== null && !Number.isFinite(check.ratio)) found.push(`${check.id} has ratio ${check.ratio}`);
  }
  for (const id of standIns) {
    const says = after.ledger.some((c) => c.id.startsWith(id) && c.status === "unknown" && c.counts);
    if (!says) found.push(`${id} does not say so`);
  }
  return found.map((f) => `${fields.join(" and ")} not known: ${f}`);
}

/** Whether a field holds something and may be null. */
const isKnown = (plan: Plan, path: JsonPath): boolean =>
  valueAt(plan, path) !== null && ruleAt(plan, path)?.nullable === true;
const knownFields = (plan: Plan): readonly JsonPath[] => pathsOf(plan).filter((path) => isKnown(plan, path));

function without(plan: Plan, paths: readonly JsonPath[]): Plan {
  const read = readPlan(paths.reduce((changed, path) => withValue(changed, path, null), plan));
  if (!read.ok) throw new Error(`a plan with ${paths.map(pathName).join(", ")} not known does not open`);
  return read.plan;
}

const inMotion = (plan: Plan, motion: Plan["rig"]["load"]["motion"]): Plan => ({
  ...plan,
  rig: { ...plan.rig, load: { ...plan.rig.load, motion } },
});

/** A plan whose limits are so tight that most of what has one is over it. */
function tight(plan: Plan): Plan {
  const policy = Object.fromEntries(
    Object.entries(plan.policy).map(([name, limit]) => {
      if (typeof limit === "string" || limit.value === null) return [name, limit];
      const asksForMore = /Factor$|Clearance|Margin|AngleMin|Min$/.test(name) && !/basket|choker/.test(name);
      return [name, { ...limit, value: name === "closeRatio" ? limit.value : limit.value * (asksForMore ? 40 : 0.02) }];
    }),
  ) as Plan["policy"];
  const riggingPoints = plan.aerial.device.riggingPoints.map((p) => ({ ...p, ratingN: 10 }));
  const rows = plan.aerial.device.tipRating.rows.map((r) => ({ ...r, ratedTipLoadN: 10 }));
  const device = { ...plan.aerial.device, riggingPoints, tipRating: { ...plan.aerial.device.tipRating, rows } };
  return { ...plan, policy, aerial: { ...plan.aerial, device } };
}

/** On a platform, by the length of its ropes, with a maker's side rating: what the examples do not have. */
function onPlatform(plan: Plan): Plan {
  const at = ["rail-left", "rail-right"];
  return {
    ...plan,
    aerial: { ...plan.aerial, device: { ...deviceById("example-platform-30"), example: false }, useSag: false },
    rig: {
      ...plan.rig,
      mainLines: plan.rig.mainLines.map((l, i) => ({ ...l, tip: { ...l.tip, pointId: at[i] ?? "rail-left" } })),
    },
  };
}

/** Hung by the length of its ropes, the first main line that much too short. */
function byLength(plan: Plan, shortM = 0): Plan {
  const { lines } = evaluate(plan);
  const lengthOf = (id: string): number => lines.find((l) => l.id === id)?.unstretchedM ?? Number.NaN;
  return {
    ...plan,
    rig: {
      tether: null,
      load: { ...plan.rig.load, drive: "length" },
      mainLines: plan.rig.mainLines.map((l, i) => ({ ...l, lengthM: lengthOf(l.id) - (i === 0 ? shortM : 0) })),
      taglines: plan.rig.taglines.map((l, i) =>
        i === 0 ? { ...l, drive: "length", lengthM: lengthOf(l.id) } : { ...l, drive: "tension", tensionN: 80 },
      ),
    },
  };
}

/** Held by position, its taglines made fast as long as they must be. */
function madeFast(plan: Plan): Plan {
  const { lines } = evaluate(plan);
  const lengthOf = (id: string): number => lines.find((l) => l.id === id)?.unstretchedM ?? Number.NaN;
  return {
    ...plan,
    rig: {
      ...plan.rig,
      taglines: plan.rig.taglines.map((l) => ({ ...l, drive: "length", tensionN: null, lengthM: lengthOf(l.id) })),
    },
  };
}

const BASES: readonly (readonly [string, Plan])[] = EXAMPLES.flatMap(({ key, plan }) => {
  const real = asReal(plan);
  return [
    [key, real],
    [`${key}, lowering`, inMotion(real, "lower")],
    [`${key}, by length`, byLength(real)],
    // Where sharing went from over to within when a stiffness was not known.
    [`${key}, by uneven lengths`, byLength(real, 0.5)],
    [`${key}, made fast`, madeFast(real)],
    [`${key}, on a platform`, onPlatform(real)],
    [`${key}, tight`, tight(real)],
  ] as const;
});

describe("missing data is never good", () => {
  it("has plans to try it on that are ready, and plans where most is over", () => {
    const statuses = Object.fromEntries(BASES.map(([name, plan]) => [name, evaluate(plan)]));
    for (const { key } of EXAMPLES) {
      expect(isReady(statuses[key] as Evaluation), key).toBe(true);
      expect(statuses[`${key}, by length`]?.holding.state).not.toBe("unsolved");
      expect(statuses[`${key}, by uneven lengths`]?.ledger.find((c) => c.id === "sharing")?.status).toBe("over");
      expect(statuses[`${key}, tight`]?.ledger.filter((c) => c.status === "over").length).toBeGreaterThan(50);
    }
  });

  it.each(BASES)("%s: each field that may be null, in turn", (_name, plan) => {
    const before = evaluate(plan);
    const fields = knownFields(plan);
    expect(fields.length).toBeGreaterThan(100);
    expect(fields.flatMap((path) => faults(plan, before, [path]))).toEqual([]);
  });

  it("damaged plans, and the same with one to three fields not known", () => {
    let tried = 0;
    const found: string[] = [];
    for (let seed = 0; seed < 700; seed++) {
      const base = BASES[seed % BASES.length]?.[1] ?? {};
      const read = readPlan(mutatePlan(base, 300_000 + seed).value);
      if (!read.ok) continue;
      tried++;
      const random = seededRandom(seed);
      const all = pathsOf(read.plan);
      const known = Array.from({ length: 40 }, () => random.oneOf(all)).filter((path) => isKnown(read.plan, path));
      // Two of them may lie one in the other: nulled from the inside out, each is there when its turn comes.
      const paths = known.slice(0, 1 + random.below(3)).sort((one, other) => other.length - one.length);
      found.push(...faults(read.plan, evaluate(read.plan), paths).map((f) => `seed ${seed}: ${f}`));
    }
    expect(found).toEqual([]);
    expect(tried).toBeGreaterThan(200);
  });
});

describe("what is unknown where a field is null", () => {
  const crossing = BASES.find(([name]) => name === "crossing")?.[1];
  if (!crossing) throw new Error("no such plan");
  const before = evaluate(crossing);
  const idOf = (pattern: RegExp): readonly string[] => before.ledger.filter((c) => pattern.test(c.id)).map((c) => c.id);
  const gearField = (id: string, field: string): string =>
    `gear[${crossing.gear.findIndex((g) => g.id === id)}].${field}`;
  const pointField = (id: string, field: string): string =>
    `aerial.device.riggingPoints[${crossing.aerial.device.riggingPoints.findIndex((p) => p.id === id)}].${field}`;
  const anchorField = (id: string, field: string): string =>
    `aerial.device.anchors[${crossing.aerial.device.anchors.findIndex((a) => a.id === id)}].${field}`;

  const BY_LIMIT: readonly (readonly [LimitName, RegExp])[] = [
    ["strengthFactor", /^component-strength\/main-.\/(rope|knot|connector|tip\.|base\.sheave|brake$)/],
    ["offPlaneMaxRad", /^off-plane$/],
    ["shareMax", /^sharing$/],
    ["pairUnevenMax", /^paired-points$/],
    ["ladderClearanceM", /^clearance\/ladder\//],
    ["loadClearanceM", /^clearance\/load\//],
    ["loadToLadderClearanceM", /^clearance\/loadToLadder\//],
    ["ropeClearanceM", /^clearance\/rope\//],
    ["tipMarginM", /^tip-height$/],
    ["slingAngleMinRad", /^sling-angle$/],
    ["basketFactor", /^component-strength\/main-.\/tip\.sling$/],
    ["personsMax", /^persons$/],
    ["pullPerPersonN", /^tagline-hands\//],
    ["jackReachMin", /^jack-reach\//],
    ["stabilityFactor", /^stability$/],
  ];
  const NEEDED: readonly (readonly [fields: readonly string[], checks: RegExp])[] = [
    ...BY_LIMIT.map(([name, checks]) => [[`policy.${name}.value`], checks] as const),
    [["aerial.device.maxWindMS"], /^wind$/],
    [["aerial.device.maxSlopeRad"], /^slope$/],
    [["scene.parking[0].bearingPa"], /^jack-pressure\//],
    [["scene.wind.gustMS"], /^wind$/],
    ...["scene.wind.gustMS", "rig.load.dragAreaM2"].map(
      (field) =>
        [
          [field],
          /^(holding|off-plane|paired-points|tipping|stability|tip-rating|rigging-point-rating|tagline-hands|component-strength|jack-pressure|clearance\/(load|rope)|power-line\/power\/(load|main|tag))/,
        ] as const,
    ),
    [["scene.destination"], /^tip-height$/],
    [["scene.powerLines[0].voltageKv"], /^power-line\//],
    [["aerial.lockedOut"], /^lock-out$/],
    [["scene.powerLinesLookedFor"], /^power-lines-looked-for$/],
    [["aerial.jackReach.front-left"], /^(jack-reach\/front-left|stability|jack-pressure\/.*)$/],
    [["aerial.device.massKg"], /^(stability|jack-pressure\/.*)$/],
    [["aerial.device.massCentre"], /^(stability|jack-pressure\/.*)$/],
    [["aerial.device.jacks[0].padAreaM2"], /^jack-pressure\/front-left$/],
    [[pointField("tip-left", "ratingN")], /^rigging-point-rating\/tip-left$/],
    [[pointField("tip-left", "ratingBasis")], /^rigging-point-rating\/tip-left$/],
    [[pointField("tip-left", "structural")], /^non-structural-point\/tip-left$/],
    [[anchorField("turntable-3", "ratingN")], /^component-strength\/main-a\/base\.anchor$/],
    [[anchorField("turntable-3", "ratingBasis")], /^component-strength\/main-a\/base\.anchor$/],
    [
      crossing.aerial.device.tipRating.rows.map((_, i) => `aerial.device.tipRating.rows[${i}].ratedTipLoadN`),
      /^(tip-rating\/.*|tipping)$/,
    ],
    [
      ["rig.load.parts[0].massKg"],
      /^(holding|off-plane|paired-points|tip-rating\/.*|rigging-point-rating\/.*|tipping|clearance\/load.*|ground\/load|power-line\/power\/load\/.*)$/,
    ],
    [["rig.taglines[1].tensionN"], /^(holding|off-plane|tip-rating\/.*|tipping)$/],
    [[gearField("rope-12", "strengthN")], /^component-strength\/main-.\/(rope|knot)$/],
    [[gearField("rope-12", "strengthBasis")], /^component-strength\/main-.\/(rope|knot)$/],
    [[gearField("knot-eight", "efficiency")], /^component-strength\/.*\/knot$/],
    [[gearField("sling-60", "strengthN")], /^component-strength\/main-.\/tip\.sling$/],
    [[gearField("connector-steel", "strengthN")], /^component-strength\/main-.\/(connector|.*\.connector)$/],
    [[gearField("litter-basket", "strengthBasis")], /^component-strength\/load\/litter$/],
    [[gearField("brake-g", "strengthN")], /^component-strength\/main-.\/brake$/],
    [
      [gearField("sheave-large", "efficiency")],
      /^(component-strength\/main-.\/(rope|tip\.sheave|tip\.sling|base\.anchor|brake)|off-plane|tip-rating\/.*|rigging-point-rating\/.*|tipping)$/,
    ],
  ];

  it.each(NEEDED)("%s", (fields, pattern) => {
    const paths = pathsOf(crossing).filter((p) => fields.includes(pathName(p)));
    expect(paths).toHaveLength(fields.length);
    const after = new Map(evaluate(without(crossing, paths)).ledger.map((c) => [c.id, c]));
    const checks = idOf(pattern);
    expect(checks.length).toBeGreaterThan(0);
    for (const id of checks) {
      expect(before.ledger.find((c) => c.id === id)?.status, id).not.toBe("unknown");
      expect(after.get(id)?.status, id).toBe("unknown");
      expect(after.get(id)?.says.length, id).toBeGreaterThan(0);
    }
  });
});
