import type { Network } from "@gantline/engine";
import type { Evaluation, Plan, When } from "@gantline/plan";

/** A physics engine needs mass where a pulley rides; ten grams stand for none. */
const PULLEY_KG = 0.01;

/** The plan with sheaves that take nothing, and a ladder that does not sag. */
export const frictionless = (plan: Plan): Plan => ({
  ...plan,
  aerial: { ...plan.aerial, useSag: false },
  gear: plan.gear.map((g) => (g.kind === "sheave" ? { ...g, efficiency: 1 } : g)),
});

const GRAVITY_MS2 = 9.80665;

/** Of a line's rope, all ropes of a tackle together: weight of a metre, N, and EA, N. */
function ropeOf({ gear, rig }: Plan, lineId: string): { readonly weightNM: number; readonly stiffnessN: number } {
  const line = [...rig.mainLines, ...rig.taglines, ...(rig.tether ? [rig.tether] : [])].find((l) => l.id === lineId);
  const rope = gear.find((g) => g.id === line?.rope);
  const parts = rig.tether?.id === lineId ? rig.tether.parts : 1;
  if (rope?.kind !== "rope") return { weightNM: 0, stiffnessN: 0 };
  return {
    weightNM: (rope.linearMassKgM ?? 0) * GRAVITY_MS2 * parts,
    stiffnessN: (rope.staticStiffnessN ?? 0) * parts,
  };
}

/** Weight of a metre of a line's rope, all ropes of a tackle together, N. */
export const ropeNM = (plan: Plan, lineId: string): number => ropeOf(plan, lineId).weightNM;

/** Half the weight of every rope's part that ends at the load, N. */
const ropesAtLoadN = (plan: Plan, e: Evaluation): number =>
  e.lines.reduce((sum, line) => {
    const [a, b] = [line.nodes[0]?.at, line.nodes[1]?.at];
    return a && b ? sum + (ropeNM(plan, line.id) * Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])) / 2 : sum;
  }, 0);

/**
 * The rig of an evaluation as a rope network, begun some way off. Rope weighs at the load, as a force there; what hangs at
 * places that do not move changes nothing in the network.
 *
 * @param tether by the pull found, or by the length it has: at the end of its tackle it has no pull of its own
 */
export function networkOf(plan: Plan, e: Evaluation, tether: "pull" | "length" = "pull"): Network {
  const [x, y, z] = e.load.yoke;
  const [windX, windY, windZ] = e.load.windN ?? [0, 0, 0];
  const nodes: Record<string, Network["nodes"][string]> = {
    load: {
      position: [x + 0.3, y - 0.2, z - 0.3],
      free: true,
      massKg: e.load.massKg ?? 0,
      forceN: [windX, windY, windZ - ropesAtLoadN(plan, e)],
    },
  };
  const lines: Record<string, Network["lines"][string]> = {};
  if (e.tether) {
    const [px, py, pz] = e.tether.pulleyAt;
    nodes.rider = { position: [px + 0.1, py - 0.1, pz], free: true, massKg: PULLEY_KG };
  }
  for (const line of e.lines) {
    const tensionN = line.tensionsN.raise[0] ?? 0;
    const through = line.nodes.map((n, i) => (i === 0 ? "load" : n.id === "rider" ? "rider" : `${line.id}.${n.id}`));
    for (const [i, n] of line.nodes.entries())
      if (i > 0 && n.id !== "rider") nodes[through[i] ?? ""] = { position: n.at };
    if (line.role !== "main" && !(line.role === "tether" && tether === "length")) {
      lines[line.id] = { through, tensionN };
      continue;
    }
    const { stiffnessN } = ropeOf(plan, line.id);
    lines[line.id] = { through, lengthM: line.pathM / (1 + tensionN / stiffnessN), axialStiffnessN: stiffnessN };
  }
  return { nodes, lines };
}

/** Moments spread over every stage with a load that moves. */
export function momentsOf(plan: Plan, count: number): readonly When[] {
  const moving = plan.evolution.stages.flatMap((s, stage) => (s.aboard.length > 0 && s.path.length > 0 ? [stage] : []));
  return Array.from({ length: count }, (_, k) => {
    const at = ((k + 0.5) / count) * moving.length;
    return { stage: moving[Math.floor(at)] ?? 0, along: at % 1 };
  });
}
