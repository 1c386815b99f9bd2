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

/** The rig of an evaluation as a rope network, begun some way off. */
export function networkOf(plan: Plan, e: Evaluation): Network {
  const [x, y, z] = e.load.yoke;
  const nodes: Record<string, Network["nodes"][string]> = {
    load: {
      position: [x + 0.3, y - 0.2, z - 0.3],
      free: true,
      massKg: e.load.massKg ?? 0,
      forceN: e.load.windN ?? [0, 0, 0],
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
    if (line.role !== "main") {
      lines[line.id] = { through, tensionN };
      continue;
    }
    const rope = plan.gear.find((g) => g.id === plan.rig.mainLines.find((l) => l.id === line.id)?.rope);
    const stiffness = rope?.kind === "rope" ? (rope.staticStiffnessN ?? 0) : 0;
    lines[line.id] = { through, lengthM: line.pathM / (1 + tensionN / stiffness), axialStiffnessN: stiffness };
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
