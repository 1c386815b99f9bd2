import { addScaled, distance, type HoldingRope, hangOnRopes, type SiteVector, site } from "@gantline/engine";
import type { GearOf } from "../schema/gear.ts";
import { groundForce, groundRopes } from "./ground-below.ts";
import { hangJointly, type LinesLetHang } from "./hang-jointly.ts";
import type { LaidMain, LaidRig, LaidTether } from "./lay-lines.ts";
import type { SetLength } from "./rig-state.ts";
import { ropesAtYokeN } from "./rope-weight.ts";
import { type Floating, isRidden, settleRig } from "./settle-rig.ts";

/** Where the load hangs and what pulls on it there. */
export interface HeldThere {
  readonly floating: Floating;
  readonly found: {
    readonly yoke: SiteVector;
    /** Tension of each main line and each tagline at the load, and of the tether, N. */
    readonly mainsN: readonly number[];
    readonly tagsN: readonly number[];
    readonly tetherN: number;
    /** What the ground does to it, N; null: it hangs. */
    readonly groundN: SiteVector | null;
    readonly residualN: number;
  };
}

/** What acts on the load besides its lines. */
export interface ActingOnLoad {
  /** Weight without that of ropes, and wind, N. */
  readonly forceN: SiteVector;
  /** The yoke's place when the load stands on the ground; null: it hangs. */
  readonly standing: SiteVector | null;
}

/** EA of a rope whose stiffness is not known, N: it is taken as hardly stretching, so that unequal lines share worst. */
const HARDLY_STRETCHES_N = 1e7;
/** The weight of ropes hangs on where the yoke is, a little. */
const WEIGHING_ROUNDS = 20;
const WEIGHED_M = 1e-6;

/**
 * Where do the lines let the load hang, that cannot hold it where it was wanted?
 *
 * Main lines, and whatever else is made fast at a length that is not given, keep the unstretched lengths that they have at the
 * wanted place with the pulls found there; lines of a set length have that; lines in hands keep their pulls.
 *
 * @returns `"drawnUp"`: the tether draws its pulley onto the yoke; null: no balance was found
 */
export function letHang(
  rig: LaidRig,
  wanted: HeldThere,
  set: readonly SetLength[],
  { forceN, standing }: ActingOnLoad,
  withinM: number,
): HeldThere | "drawnUp" | null {
  const { floating: there, found: pulls } = wanted;
  const { tether } = rig;
  const lengths = new Map(set.map((l) => [l.lineId, l.lengthM]));
  const measured = (pathM: number, tensionN: number, rope: LaidMain["rope"], parts = 1) => {
    const stiffnessN = (rope?.staticStiffnessN ?? HARDLY_STRETCHES_N) * parts;
    return { lengthM: pathM / (1 + tensionN / stiffnessN), stiffnessN };
  };
  const mains = rig.mains.map((m, i) => {
    const pathM = distance(pulls.yoke, there.sheaves[i] ?? m.pointAt) + beyondM(rig, m, i, there);
    return measured(pathM, pulls.mainsN[i] ?? 0, m.rope);
  });
  /** A line in hands where it keeps a length: what is set, else what it has at the wanted place. */
  const fast = ({ line, rope }: LaidRig["tags"][number] | LaidTether, to: SiteVector, tensionN: number) => {
    if (line.drive !== "length" && !lengths.has(line.id)) return null;
    const there = measured(distance(pulls.yoke, to), tensionN, rope, "parts" in line ? line.parts : 1);
    return { ...there, lengthM: lengths.get(line.id) ?? there.lengthM };
  };
  const tags = rig.tags.map((t, i) => fast(t, t.handsAt, pulls.tagsN[i] ?? 0));
  const tackle = tether && there.rider ? fast(tether, there.rider, pulls.tetherN) : null;
  const tetherN = tether?.line.drive === "tension" ? (tether.line.tensionN ?? 0) : pulls.tetherN;
  const settled = settleRig(
    rig,
    pulls.yoke,
    (floating, yoke) => {
      const { sheaves, rider } = floating;
      const ropes: HoldingRope[] = rig.mains.map((m, i) => ({
        toward: sheaves[i] ?? m.pointAt,
        beyondM: beyondM(rig, m, i, floating),
        lengthM: mains[i]?.lengthM ?? 0,
        stiffnessN: mains[i]?.stiffnessN ?? 0,
      }));
      const hands: { toward: SiteVector; tensionN: number }[] = [];
      const places: number[] = [];
      for (const [i, { handsAt }] of rig.tags.entries()) {
        const fast = tags[i];
        places.push(fast ? ropes.push({ toward: handsAt, beyondM: 0, ...fast }) - 1 : -1);
        if (!fast) hands.push({ toward: handsAt, tensionN: pulls.tagsN[i] ?? 0 });
      }
      const atTackle = rider && tackle ? ropes.push({ toward: rider, beyondM: 0, ...tackle }) - 1 : -1;
      if (rider && !tackle) hands.push({ toward: rider, tensionN: tetherN });
      const atGround = ropes.length;
      for (const rope of standing ? groundRopes(standing) : []) ropes.push({ beyondM: 0, ...rope });
      const force = addScaled(forceN, site(0, 0, -1), ropesAtYokeN(rig, yoke, floating));
      const hangs = hangOnRopes(yoke, ropes, hands, force);
      if (!hangs.ok) return null;
      const { at, tensionsN, residualN } = hangs;
      return {
        yoke: at,
        mainsN: tensionsN.slice(0, rig.mains.length),
        tagsN: places.map((k, i) => (k < 0 ? (pulls.tagsN[i] ?? 0) : (tensionsN[k] ?? 0))),
        tetherN: atTackle < 0 ? tetherN : (tensionsN[atTackle] ?? 0),
        groundN: standing && groundForce(standing, at, (k) => tensionsN[atGround + k] ?? 0),
        residualN,
      };
    },
    withinM,
    there,
  );
  if (settled !== null || there.rider === null) return settled;
  const lines: LinesLetHang = {
    mains,
    tags: tags.map((t, i) => t ?? pulls.tagsN[i] ?? 0),
    tether: tackle ?? tetherN,
  };
  let hung = wanted;
  let movedBefore = Number.MAX_VALUE;
  for (let round = 0; round < WEIGHING_ROUNDS; round++) {
    const ropesN = ropesAtYokeN(rig, hung.found.yoke, hung.floating);
    const next = hangJointly(rig, lines, hung, { forceN: addScaled(forceN, site(0, 0, -1), ropesN), standing });
    if (next === null || next === "drawnUp") return next;
    const moved = distance(next.found.yoke, hung.found.yoke);
    if (moved < WEIGHED_M) return next;
    if (moved > movedBefore) return null;
    hung = next;
    movedBefore = moved;
  }
  return null;
}

/** Ropes of what keeps its length whose stiffness is not known. */
export function ropesOfUnknownStiffness(
  { mains, tags, tether }: LaidRig,
  set: readonly SetLength[],
): readonly GearOf<"rope">[] {
  const fast = [...tags, ...(tether ? [tether] : [])].filter(
    ({ line }) => line.drive === "length" || set.some((l) => l.lineId === line.id),
  );
  return [...new Set([...mains, ...fast].flatMap(({ rope }) => (rope?.staticStiffnessN === null ? [rope] : [])))];
}

/** Length of a main line from its tip sheave to its brake, m. */
function beyondM(rig: LaidRig, main: LaidMain, i: number, { sheaves, rider }: Floating): number {
  let lengthM = 0;
  let from = sheaves[i] ?? main.pointAt;
  if (rider && isRidden(rig, main)) {
    lengthM += distance(from, rider);
    from = rider;
  }
  for (const { at } of main.anchors) {
    lengthM += distance(from, at);
    from = at;
  }
  return lengthM;
}
