import { isOfLadder, type StandCheck, type StandQuestion, type StandReason } from "@gantline/engine";
import type { Quantity, UnitSystem } from "@gantline/plan";
import { type Write, writer } from "../shared/write.ts";

type Things = Pick<StandQuestion, "parking" | "keepOuts" | "bodyObstacles" | "obstacles" | "wires">;

/** Why a stand is not to be had and by how much, or what would have to be known: one sentence or two in the reader's units. */
export function reasonSays(things: Things, reason: StandReason, system: UnitSystem): string {
  const write = writer(system);
  const thing = nameOf(things, reason);
  const { value, limit, shortfall, unit, pose, clears } = reason;
  if (value === null || limit === null || shortfall === null) return unknownSays(reason, thing, write);
  const quantity = QUANTITY[unit];
  const [is, may] = [write(value, quantity), write(limit, quantity)];
  const by = someOf(shortfall, quantity, write);
  const says = KNOWN[reason.check]({ thing, is, may, by, touches: value <= 0 });
  const more = clears === null ? "" : ` It would keep that ${someOf(clears.byM, "length", write)} ${WAY[clears.way]}.`;
  if (pose === null) return says + more;
  const at = `At ${write(pose.elevationRad, "angle")}, ${write(pose.lengthM, "length")} long: `;
  return (
    at +
    (says.startsWith("The ") || says.startsWith("Nothing ") || says.startsWith("Too ")
      ? says[0]?.toLowerCase() + says.slice(1)
      : says) +
    more
  );
}

/** What else keeps a place from fitting (`otherReasonAt`), after its reason: one sentence or two. */
export function otherSays(things: Things, first: StandReason, other: StandReason, system: UnitSystem): string {
  const says = reasonSays(things, other, system).replace(/^(The|A|At|Too|Nothing|Not) /, (word) => word.toLowerCase());
  if (isOfLadder(first.check) !== isOfLadder(other.check)) return `Besides: ${says}`;
  return `${isOfLadder(other.check) ? "Posed" : "Faced"} otherwise: ${says}`;
}

const WAY: Readonly<Record<NonNullable<StandReason["clears"]>["way"], string>> = {
  higher: "higher up",
  lower: "lower down",
  aside: "further off",
};

/** Never nothing: what is too small to be written is less than the least that is. */
function someOf(amount: number, quantity: Quantity, write: Write): string {
  const written = write(amount, quantity);
  if (/[1-9]/.test(written)) return written;
  for (let least = LEAST_WRITTEN[quantity] ?? 1; least < 1e6; least *= 2) {
    const more = write(least, quantity);
    if (/[1-9]/.test(more)) return `less than ${more}`;
  }
  return written;
}

/** Where amounts begin to be written, in SI. */
const LEAST_WRITTEN: Readonly<Partial<Record<Quantity, number>>> = { length: 0.005, angle: 5e-4, force: 1 };

const QUANTITY: Readonly<Record<StandReason["unit"], Quantity>> = { m: "length", rad: "angle", N: "force" };

interface Words {
  readonly thing: string;
  /** Found, allowed, and what lies between. */
  readonly is: string;
  readonly may: string;
  readonly by: string;
  readonly touches: boolean;
}

const clear =
  (what: string) =>
  ({ thing, is, may, by, touches }: Words): string =>
    touches
      ? `${what} meets ${thing}; ${may} is to be kept.`
      : `${what} comes ${is} from ${thing}; ${may} is to be kept, ${by} more.`;

const KNOWN: Readonly<Record<StandCheck, (words: Words) => string>> = {
  offParking: ({ by }) => `${by} outside the parking ground.`,
  vehicleOffParking: ({ thing, by }) => `The vehicle stands ${by} out over the edge of ${thing}.`,
  jackOffParking: ({ thing, by }) => `A jack stands ${by} outside ${thing}.`,
  vehicleOnKeepOut: ({ thing, by }) => `The vehicle stands on ${thing}; it is clear of it ${by} further off.`,
  jackOnKeepOut: ({ thing, by }) => `A jack stands on ${thing}; it is clear of it ${by} further off.`,
  vehicleClearance: clear("The vehicle"),
  jackClearance: clear("A jack"),
  vehicleToWire: clear("The vehicle"),
  slopeAlong: ({ is, may, by }) => `The ground falls ${is} along the vehicle; ${may} is the most, ${by} too much.`,
  slopeAcross: ({ is, may, by }) => `The ground falls ${is} across the vehicle; ${may} is the most, ${by} too much.`,
  groundSlope: ({ is, may, by }) =>
    `The ground falls ${is}, whichever way the vehicle faces; ${may} is the most, ${by} too much.`,
  tooNear: ({ by }) => `Too near: the point hangs to the side of the ladder, and passes by ${by} off.`,
  tooLow: ({ is, may, by }) => `The ladder would lie at ${is}; ${may} is its lowest, ${by} too low.`,
  tooSteep: ({ is, may, by }) => `The ladder would stand at ${is}; ${may} is its steepest, ${by} too steep.`,
  tooShort: ({ is, may, by }) => `Too near: the ladder would be ${is} long; ${may} is its shortest, ${by} too short.`,
  tooLong: ({ is, may, by }) => `${by} short of reach: the ladder would be ${is} long; ${may} is its longest.`,
  rating: ({ is, may, by }) => `The tip would bear ${is}; ${may} of its rating may be used there, ${by} too much.`,
  nothingHolds: ({ is, may, by }) =>
    `Nothing holds the load with its rigging points at a height of ${is}; at ${may} it would be held, ${by} higher.`,
  ladderClearance: clear("The ladder"),
  ladderToWire: clear("The ladder"),
  platformClearance: clear("The platform"),
  platformToWire: clear("The platform"),
  loadWay: ({ is, may, by }) =>
    `The ladder would stand at ${is}; above ${may} the load cannot be held and kept off it all along its way, ${by} too steep.`,
};

function unknownSays({ check, value, limit }: StandReason, thing: string, write: Write): string {
  switch (check) {
    case "rating":
      return limit === null
        ? `Not known: what the tip may bear at this pose${value === null ? "" : `, where it would bear ${write(value, "force")}`}.`
        : `Not known: what the tip would bear; ${write(limit, "force")} may be used.`;
    case "nothingHolds":
      return value === null
        ? `Not known: ${UNKNOWN_ELSE}.`
        : `Nothing holds the load all along its way with the ladder pointing this way and its rigging points at a height of ${write(value, "length")}.`;
    case "slopeAlong":
    case "slopeAcross":
      return "Not known: the steepest ground the vehicle may be levelled on.";
    case "vehicleToWire":
    case "ladderToWire":
    case "platformToWire":
      return `Not known: the distance to keep from ${thing}.`;
    case "vehicleClearance":
    case "jackClearance":
    case "ladderClearance":
    case "platformClearance":
      return `Not known: the distance to keep from ${thing}.`;
    case "jackOffParking":
      return "Not known: the size of a jack's pad; only its middle is held to the ground.";
    default:
      return `Not known: ${UNKNOWN_ELSE}.`;
  }
}

const UNKNOWN_ELSE = "something this place rests on";

function nameOf(things: Things, { check, thingId }: StandReason): string {
  const [list, none] = listOf(things, check);
  return list.find(({ id }) => id === thingId)?.name ?? none;
}

type Named = readonly { readonly id: string; readonly name: string }[];

function listOf(things: Things, check: StandCheck): readonly [list: Named, none: string] {
  switch (check) {
    case "vehicleOnKeepOut":
    case "jackOnKeepOut":
      return [things.keepOuts, "ground to keep off"];
    case "vehicleClearance":
    case "jackClearance":
      return [things.bodyObstacles, "an obstacle"];
    case "ladderClearance":
    case "platformClearance":
      return [things.obstacles, "an obstacle"];
    case "vehicleToWire":
    case "ladderToWire":
    case "platformToWire":
      return [things.wires, "a power line"];
    default:
      return [things.parking, "the parking ground"];
  }
}
