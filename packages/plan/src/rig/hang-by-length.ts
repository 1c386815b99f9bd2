import {
  addScaled,
  asSite,
  type Network,
  type NetworkAnswer,
  type NetworkLine,
  type SiteVector,
  site,
  solveNetwork,
  type Travel,
} from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import type { Plan } from "../schema/plan.ts";
import { groundForce, groundRopes, type StandingZ, standingAt } from "./ground-below.ts";
import type { LaidRig } from "./lay-lines.ts";
import type { RigOutcome, TagState } from "./rig-state.ts";
import { ropesAtYokeN } from "./rope-weight.ts";
import { runMains, runTether } from "./run-mains.ts";
import { type Floating, isRidden, settleRig } from "./settle-rig.ts";

type Failed = Extract<RigOutcome, { ok: false }>;
type Motion = Plan["rig"]["load"]["motion"];

/** A plan's lines start at the load. */
const TRAVEL: Readonly<Record<Motion, Travel>> = { raise: "toEnd", lower: "toStart", rest: "none" };

/**
 * Where does the load hang with the ropes as measured, and what does each carry?
 *
 * Main lines by unstretched length and stiffness, taglines by length or by pull, through the rope network solver with the
 * sheaves' friction. The place shown is that of the way the ropes run; at rest, where friction can act either way, that without
 * friction; on the ground where the ropes are so long that it comes down on it. With sheaves and riding pulley as they are there, the network is solved for both ways of travel: friction changes
 * what every line carries, at the load too.
 */
export function hangByLength(
  rig: LaidRig,
  start: SiteVector,
  massKg: number,
  pushN: SiteVector,
  motion: Motion,
  standingZ: StandingZ,
): RigOutcome {
  const lacking = lackingLength(rig);
  if (lacking) return lacking;
  let failed: Failed | null = null;
  const hang = (
    floating: Floating,
    yoke: SiteVector,
    travel: Travel,
    standing: SiteVector | null,
  ): NetworkAnswer | null => {
    const force = addScaled(pushN, site(0, 0, -1), ropesAtYokeN(rig, yoke, floating));
    const solution = solveNetwork(networkOf(rig, floating, yoke, massKg, force, travel, standing));
    if (solution.ok) return solution;
    failed = { ok: false, code: solution.code, where: solution.where, says: solution.hint };
    return null;
  };
  const settle = (on: SiteVector | null) =>
    settleRig(rig, start, (floating, yoke) => {
      const hung = hang(floating, yoke, TRAVEL[motion], on);
      const at = hung?.nodes.load?.position;
      if (!hung || !at) return null;
      return {
        yoke: asSite(at),
        mainsN: rig.mains.map((m) => tensionsIn(hung, `main.${m.line.id}`)[0] ?? 0),
        tetherN: tensionsIn(hung, "tether")[0] ?? 0,
        groundN: on && groundForce(on, asSite(at), (k) => tensionsIn(hung, `ground ${k}`)[0] ?? 0),
        residualN: hung.residualN,
      };
    });
  const free = settle(null);
  const standing = free && standingAt(free.found.yoke, start, standingZ);
  const settled = standing ? settle(standing) : free;
  const cases = settled && {
    raise: hang(settled.floating, settled.found.yoke, TRAVEL.raise, standing),
    lower: hang(settled.floating, settled.found.yoke, TRAVEL.lower, standing),
  };
  const { raise, lower } = cases ?? {};
  if (!settled || !raise || !lower)
    return (
      failed ?? {
        ok: false,
        code: "not-converged",
        where: "load",
        says: "No balance was found with these rope lengths.",
      }
    );
  const { floating, found } = settled;
  const answers: Readonly<Record<TravelCase, NetworkAnswer>> = { raise, lower };
  const ofLine = (name: string): Pick<TagState, "tensionN" | "tensionsN"> => {
    const tensionsN = { raise: tensionsIn(raise, name)[0] ?? 0, lower: tensionsIn(lower, name)[0] ?? 0 };
    return { tensionN: motion === "rest" ? Math.max(tensionsN.raise, tensionsN.lower) : tensionsN[motion], tensionsN };
  };
  return {
    ok: true,
    state: {
      yoke: found.yoke,
      residualN: Math.max(found.residualN, raise.residualN, lower.residualN),
      mains: runMains(rig, floating, found.yoke, (i, _, travel) =>
        tensionsIn(answers[travel], `main.${rig.mains[i]?.line.id}`),
      ),
      tags: rig.tags.map((laid) => ({ laid, ...ofLine(`tag.${laid.line.id}`) })),
      tether: runTether(rig, floating, ofLine("tether")),
      set: [],
      stiffTaken: [],
      ropesAtYokeN: ropesAtYokeN(rig, found.yoke, floating),
      groundN: found.groundN,
    },
  };
}

const tensionsIn = ({ lines }: NetworkAnswer, name: string): readonly number[] => lines[name]?.tensionsN ?? [];

/**
 * The rig as a rope network; sheaves where they are, the load free. The riding pulley is free where there is no friction, and
 * stays where it is where there is. A sheave of unknown efficiency is taken as frictionless; the ledger says that it is unknown.
 */
function networkOf(
  rig: LaidRig,
  { sheaves, rider }: Floating,
  start: SiteVector,
  massKg: number,
  forceN: SiteVector,
  travel: Travel,
  standing: SiteVector | null,
): Network {
  const nodes: Record<string, Network["nodes"][string]> = {
    load: { position: start, free: true, massKg, forceN },
  };
  const lines: Record<string, NetworkLine> = {};
  for (const [i, main] of rig.mains.entries()) {
    const names = ["tip", ...main.anchors.map((a) => a.id)].map((n) => `${main.line.id}.${n}`);
    for (const [k, name] of names.entries())
      nodes[name] = { position: k === 0 ? (sheaves[i] ?? main.pointAt) : (main.anchors[k - 1]?.at ?? main.pointAt) };
    const [tip = "", ...beyond] = names;
    const ridden = rider !== null && isRidden(rig, main);
    const [atTip = null, ...atRedirects] = main.efficiencies;
    lines[`main.${main.line.id}`] = {
      through: ["load", tip, ...(ridden ? ["rider"] : []), ...beyond],
      lengthM: main.line.lengthM ?? 0,
      axialStiffnessN: main.rope?.staticStiffnessN ?? 0,
      efficiency: [atTip, ...(ridden ? [rig.tether?.efficiency ?? null] : []), ...atRedirects].map((e) => e ?? 1),
      travel,
    };
  }
  for (const tag of rig.tags) {
    nodes[`hands.${tag.line.id}`] = { position: tag.handsAt };
    const held =
      tag.line.drive === "length"
        ? { lengthM: tag.line.lengthM ?? 0, axialStiffnessN: tag.rope?.staticStiffnessN ?? 0 }
        : { tensionN: tag.line.tensionN ?? 0 };
    lines[`tag.${tag.line.id}`] = { through: ["load", `hands.${tag.line.id}`], ...held };
  }
  for (const [k, { toward, lengthM, stiffnessN }] of (standing ? groundRopes(standing) : []).entries()) {
    nodes[`beyond ${k}`] = { position: toward };
    lines[`ground ${k}`] = { through: ["load", `beyond ${k}`], lengthM, axialStiffnessN: stiffnessN };
  }
  if (rig.tether && rider) {
    const { line, rope } = rig.tether;
    nodes.rider = { position: rider, free: travel === "none" };
    lines.tether =
      line.drive === "tension"
        ? { through: ["load", "rider"], tensionN: line.tensionN ?? 0 }
        : {
            through: ["load", "rider"],
            lengthM: line.lengthM ?? 0,
            axialStiffnessN: (rope?.staticStiffnessN ?? 0) * line.parts,
          };
  }
  return { nodes, lines };
}

/** The first rope whose length or stiffness is not known, as an outcome. */
function lackingLength(rig: LaidRig): Failed | null {
  const ropes = [
    ...rig.mains.map((m) => ({
      name: m.line.name,
      length: m.line.lengthM,
      stiffness: m.rope?.staticStiffnessN ?? null,
    })),
    ...rig.tags
      .filter((t) => t.line.drive === "length")
      .map((t) => ({ name: t.line.name, length: t.line.lengthM, stiffness: t.rope?.staticStiffnessN ?? null })),
    ...(rig.tether && rig.tether.line.drive !== "tension"
      ? [
          {
            name: rig.tether.line.name,
            length: rig.tether.line.lengthM,
            stiffness: rig.tether.rope?.staticStiffnessN ?? null,
          },
        ]
      : []),
  ];
  for (const rope of ropes) {
    if (rope.length === null)
      return {
        ok: false,
        code: "unknown",
        where: rope.name,
        says: "The drive is by length, and this rope's length is not given.",
      };
    if (rope.stiffness === null)
      return {
        ok: false,
        code: "unknown",
        where: rope.name,
        says: "The drive is by length, and this rope's stiffness is not known.",
      };
  }
  return null;
}
