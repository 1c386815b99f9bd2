import { pointInPolygon, wrapBearing } from "@gantline/engine";
import { amount } from "../judge.ts";
import type { Device } from "../schema/aerial.ts";
import type { Plan } from "../schema/plan.ts";
import type { Phrase, Quantity } from "../units/quantity.ts";
import { grownOutline } from "./grown-outline.ts";
import { PLUMB_TOLERANCE_M } from "./stand-question.ts";
import type { StandAim, StandAsk, StandChangeKind, StandChoice } from "./stand-types.ts";

/** A plan and what is asked of it, with one thing changed. */
export interface Changed {
  readonly plan: Plan;
  readonly ask: StandAsk;
}

/** One thing that could be changed, by how much, and what it is called. */
export interface StandChange {
  readonly kind: StandChangeKind;
  readonly quantity: Quantity | null;
  /** The most of it that is looked at; `null` where it is not a matter of degree. */
  readonly most: number | null;
  /** More of it can do harm too: a yard that falls, made wider, would have the ground rise into the load. */
  readonly moreCanHurt?: boolean;
  /** What only the evolution judges: where nothing passes vehicle, ladder and rating it makes nothing possible. */
  readonly ofEvolution?: boolean;
  /** The least that does it is found to within this. */
  readonly within: number;
  /** The plan with that much of it; `null` where it cannot be had. */
  readonly by: (amount: number) => Changed | null;
  /** How great a change that is, as a share of what there is. */
  readonly size: (amount: number) => number;
  readonly says: (amount: number, choice: StandChoice) => Phrase;
}

/** Planning defaults, no source: how far a change is looked at, and how great a change without a degree counts. */
const CLOSER_MOST_M = 12;
const LONGER_MOST_M = 120;
const WIDER_MOST_M = 1;
const PAD_MOST_M = 1;
const LIGHTER_MOST = 0.7;
const LOWER_MOST = 0.8;
const OTHER_VEHICLE_SIZE = 0.5;
const OTHER_SIDE_SIZE = 0.75;

/** Every single change that could be made to this plan. */
export function standChanges(
  plan: Plan,
  ask: StandAsk,
  aim: StandAim,
  vehicles: readonly Device[],
): readonly StandChange[] {
  return [
    ...plan.scene.parking.map((ground) => closer(plan, ask, ground.id)),
    ...lighterLoad(plan, ask),
    ...lowerBridle(plan, ask),
    ...longerRope(plan, ask),
    ...largerPads(plan, ask),
    widerTarget(plan, ask),
    ...lessClearance(plan, ask),
    ...vehicles.filter((v) => v.id !== (ask.device ?? plan.aerial.device).id).map((v) => otherVehicle(plan, ask, v)),
    ...otherSide(plan, ask, aim),
  ];
}

function closer(plan: Plan, ask: StandAsk, groundId: string): StandChange {
  const name = plan.scene.parking.find((p) => p.id === groundId)?.name ?? "";
  return {
    kind: "closer",
    quantity: "length",
    most: CLOSER_MOST_M,
    moreCanHurt: true,
    within: 0.1,
    by: (widthM) => {
      const grown = plan.scene.parking.map((p) => {
        const outline = p.id === groundId ? grownOutline(p.outline, widthM) : p.outline;
        return outline && { ...p, outline: outline.map(([x, y]): [number, number] => [x, y]) };
      });
      const parking = grown.flatMap((p) => p ?? []);
      return parking.length === grown.length ? { plan: { ...plan, scene: { ...plan.scene, parking } }, ask } : null;
    },
    size: (widthM) => widthM / plan.aerial.device.lengthMaxM,
    says: (widthM) => ["Make the ground beside ", `"${name}" fit to stand on, out to `, amount(widthM, "length"), "."],
  };
}

function lighterLoad(plan: Plan, ask: StandAsk): StandChange[] {
  const { parts } = plan.rig.load;
  const { stages } = plan.evolution;
  const massOf = (ids: readonly string[]): number =>
    parts.reduce((sum, p) => sum + (ids.includes(p.id) ? (p.massKg ?? 0) : 0), 0);
  const heaviestKg = Math.max(
    0,
    ...(stages.length > 0 ? stages.map((s) => s.aboard) : [parts.map((p) => p.id)]).map(massOf),
  );
  if (!(heaviestKg > 0) || parts.some((p) => p.massKg === null)) return [];
  return [
    {
      kind: "lighterLoad",
      quantity: "mass",
      most: heaviestKg * LIGHTER_MOST,
      within: heaviestKg / 64,
      by: (offKg) => {
        const share = 1 - offKg / heaviestKg;
        const lighter = parts.map((p) => ({ ...p, massKg: p.massKg === null ? null : p.massKg * share }));
        return { plan: { ...plan, rig: { ...plan.rig, load: { ...plan.rig.load, parts: lighter } } }, ask };
      },
      size: (offKg) => offKg / heaviestKg,
      says: (offKg) => [
        "Take ",
        amount(offKg, "mass"),
        " off the load, of ",
        amount(heaviestKg, "mass"),
        " at its heaviest.",
      ],
    },
  ];
}

/** The load keeps its ways: the yoke goes lower by as much. */
function lowerBridle(plan: Plan, ask: StandAsk): StandChange[] {
  const { rig, evolution } = plan;
  const { load } = rig;
  const { heightM } = load.bridle;
  const lowered = ([x, y, z]: readonly [number, number, number], by: number): [number, number, number] => [
    x,
    y,
    z - by,
  ];
  return [
    {
      kind: "lowerBridle",
      quantity: "length",
      most: heightM * LOWER_MOST,
      within: heightM / 32,
      by: (lessM) => ({
        plan: {
          ...plan,
          rig: {
            ...rig,
            load: {
              ...load,
              positionM: lowered(load.positionM, lessM),
              bridle: { ...load.bridle, heightM: heightM - lessM },
            },
          },
          evolution: {
            ...evolution,
            startM: lowered(evolution.startM, lessM),
            stages: evolution.stages.map((s) => ({ ...s, path: s.path.map((p) => lowered(p, lessM)) })),
          },
        },
        ask,
      }),
      size: (lessM) => lessM / heightM,
      says: (lessM) => ["Make the bridle ", amount(lessM, "length"), " lower, of ", amount(heightM, "length"), "."],
    },
  ];
}

/** All ropes of the gear longer by the same. */
function longerRope(plan: Plan, ask: StandAsk): StandChange[] {
  const longestM = Math.max(0, ...plan.gear.flatMap((g) => (g.kind === "rope" ? g.lengthsM : [])));
  if (!(longestM > 0)) return [];
  return [
    {
      kind: "longerRope",
      quantity: "length",
      most: LONGER_MOST_M,
      ofEvolution: true,
      within: 1,
      by: (moreM) => ({
        plan: {
          ...plan,
          gear: plan.gear.map((g) => (g.kind === "rope" ? { ...g, lengthsM: g.lengthsM.map((m) => m + moreM) } : g)),
        },
        ask,
      }),
      size: (moreM) => moreM / (longestM + moreM),
      says: (moreM) => [
        "Bring ropes longer by ",
        amount(moreM, "length"),
        ", the longest of ",
        amount(longestM + moreM, "length"),
        ".",
      ],
    },
  ];
}

/** Pads are squares in line with the vehicle: all larger by as much a side. A larger one needs more ground. */
function largerPads(plan: Plan, ask: StandAsk): StandChange[] {
  const device = ask.device ?? plan.aerial.device;
  const sidesM = device.jacks.flatMap(({ padAreaM2 }) => (padAreaM2 === null ? [] : [Math.sqrt(padAreaM2)]));
  const smallestM = Math.min(...sidesM);
  if (sidesM.length === 0 || sidesM.length < device.jacks.length) return [];
  return [
    {
      kind: "largerPads",
      quantity: "length",
      most: PAD_MOST_M,
      moreCanHurt: true,
      ofEvolution: true,
      within: 0.02,
      by: (moreM) => {
        const jacks = device.jacks.map((jack, i) => ({ ...jack, padAreaM2: ((sidesM[i] ?? 0) + moreM) ** 2 }));
        const larger = { ...device, jacks };
        return ask.device
          ? { plan, ask: { ...ask, device: larger } }
          : { plan: { ...plan, aerial: { ...plan.aerial, device: larger } }, ask };
      },
      size: (moreM) => moreM / (smallestM + moreM),
      says: (moreM) => [
        "Put pads under the jacks that are larger by ",
        amount(moreM, "length"),
        " a side, the smallest ",
        amount(smallestM + moreM, "length"),
        " square.",
      ],
    },
  ];
}

function widerTarget(plan: Plan, ask: StandAsk): StandChange {
  const toleranceM = ask.toleranceM ?? PLUMB_TOLERANCE_M;
  return {
    kind: "widerTarget",
    quantity: "length",
    most: WIDER_MOST_M,
    within: 0.02,
    by: (moreM) => ({ plan, ask: { ...ask, toleranceM: toleranceM + moreM, steps: { ...ask.steps, tipPlaces: 9 } } }),
    size: (moreM) => moreM / WIDER_MOST_M,
    says: (moreM) => ["Let the tip stand up to ", amount(toleranceM + moreM, "length"), " off plumb over the place."],
  };
}

function lessClearance(plan: Plan, ask: StandAsk): StandChange[] {
  const limit = plan.policy.ladderClearanceM;
  const asked = limit.value;
  if (asked === null || asked <= 0) return [];
  return [
    {
      kind: "lessClearance",
      quantity: "length",
      most: asked,
      within: asked / 32,
      by: (lessM) => ({
        plan: { ...plan, policy: { ...plan.policy, ladderClearanceM: { ...limit, value: asked - lessM } } },
        ask,
      }),
      size: (lessM) => lessM / asked,
      says: (lessM) => [
        "If whoever sets the policy lets the ladder come within ",
        amount(asked - lessM, "length"),
        " of structures, not ",
        amount(asked, "length"),
        ".",
      ],
    },
  ];
}

const otherVehicle = (plan: Plan, ask: StandAsk, device: Device): StandChange => ({
  kind: "otherVehicle",
  quantity: null,
  most: null,
  within: 0,
  by: () => ({ plan, ask: { ...ask, device } }),
  size: () => OTHER_VEHICLE_SIZE,
  says: () => [`Bring another vehicle: ${device.name}.`],
});

/** Level ground across the aim from the parking ground nearest to it, as far as the vehicle reaches. */
function otherSide(plan: Plan, ask: StandAsk, aim: StandAim): StandChange[] {
  const device = ask.device ?? plan.aerial.device;
  const from = plan.scene.parking
    .map(({ outline }) => ({
      east: aim.xM - outline.reduce((s, p) => s + p[0], 0) / outline.length,
      north: aim.yM - outline.reduce((s, p) => s + p[1], 0) / outline.length,
    }))
    .sort((a, b) => Math.hypot(a.east, a.north) - Math.hypot(b.east, b.north))[0];
  const away = from ? Math.hypot(from.east, from.north) : 0;
  if (!from || away < 1) return [];
  const [east, north] = [from.east / away, from.north / away];
  const reachM = device.lengthMaxM + device.outline.frontM;
  const corner = (ahead: number, right: number): [number, number] => [
    aim.xM + ahead * east + right * north,
    aim.yM + ahead * north - right * east,
  ];
  const outline = [corner(0, -reachM), corner(0, reachM), corner(reachM, reachM), corner(reachM, -reachM)];
  if (plan.scene.parking.some((p) => pointInPolygon(p.outline, corner(reachM / 2, 0)))) return [];
  const ground: Plan["scene"]["parking"][number] = {
    id: "other-side",
    name: "Ground on the other side, to be looked at",
    outline,
    zM: plan.scene.groundZM,
    slopeRad: 0,
    downhillBearingRad: 0,
    bearingPa: null,
  };
  return [
    {
      kind: "otherSide",
      quantity: null,
      most: null,
      within: 0,
      by: () => ({ plan: { ...plan, scene: { ...plan.scene, parking: [ground] } }, ask }),
      size: () => OTHER_SIDE_SIZE,
      says: (_, { turntable }) => [
        "Stand on the other side, if the ground there can carry a vehicle: turntable ",
        amount(Math.hypot(turntable[0] - aim.xM, turntable[1] - aim.yM), "length"),
        " from the place, bearing ",
        amount(bearingFrom(aim, turntable), "angle"),
        " from it.",
      ],
    },
  ];
}

const bearingFrom = (aim: StandAim, [x, y]: StandChoice["turntable"]): number =>
  wrapBearing(Math.atan2(x - aim.xM, y - aim.yM));
