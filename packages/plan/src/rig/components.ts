import { addScaled, norm, type SiteVector, subtract, unit, ZERO } from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import type { Plan } from "../schema/plan.ts";
import { bridleLegs } from "./bridle.ts";
import { anchorStrength, hitched, knotted, type Strength, strengthOf } from "./component-strengths.ts";
import { gearOf } from "./gear-of.ts";
import { type MainState, type RigState, sheaveOf } from "./rig-state.ts";
import { sheavePull } from "./sheave-pull.ts";
import type { LoadSum } from "./sum-load.ts";
import { tetherHandN } from "./tether-hand.ts";

/** One part of a load path and what it carries. */
export interface Component extends Strength {
  readonly id: string;
  /** "Main A, sheave at the tip". */
  readonly subject: string;
  /** Worst over the travel cases, N; null: not known. */
  readonly forceN: number | null;
  readonly at: SiteVector;
  readonly field: string;
}

/** Every component in every load path, with the force it carries. */
export function listComponents(
  plan: Plan,
  state: RigState,
  sum: LoadSum,
  cases: readonly TravelCase[],
): readonly Component[] {
  return [
    ...loadComponents(plan, state, sum),
    ...state.mains.flatMap((m, i) => mainComponents(plan, m, `rig.mainLines[${i}]`, state.yoke, cases)),
    ...tagComponents(plan, state),
    ...tetherComponents(plan, state),
  ];
}

function loadComponents(plan: Plan, state: RigState, sum: LoadSum): Component[] {
  const { load } = plan.rig;
  const legs = bridleLegs(plan, sum.weightN);
  const base = { at: state.yoke };
  const total = state.mains.reduce(
    (s, m) => addScaled(s, unit(subtract(sheaveOf(m), state.yoke)), m.tensionsN.raise[0] ?? 0),
    ZERO,
  );
  const parts: Component[] = [
    {
      ...base,
      id: "load/yoke",
      subject: "Yoke",
      forceN: norm(total),
      ...strengthOf(gearOf(plan, "yoke", load.yoke)),
      field: "rig.load.yoke",
    },
    {
      ...base,
      id: "load/bridle.leg",
      subject: "Bridle leg",
      forceN: legs.forceN,
      ...strengthOf(gearOf(plan, "sling", load.bridle.sling)),
      field: "rig.load.bridle.sling",
    },
    {
      ...base,
      id: "load/bridle.connector",
      subject: "Bridle leg, connector",
      forceN: legs.forceN,
      ...strengthOf(gearOf(plan, "connector", load.bridle.connector)),
      field: "rig.load.bridle.connector",
    },
  ];
  if (load.litter !== null)
    parts.push({
      ...base,
      id: "load/litter",
      subject: "Litter",
      forceN: sum.weightN,
      ...strengthOf(gearOf(plan, "litter", load.litter)),
      field: "rig.load.litter",
    });
  return parts;
}

function mainComponents(
  plan: Plan,
  main: MainState,
  field: string,
  yoke: SiteVector,
  cases: readonly TravelCase[],
): Component[] {
  const { line, rope } = main.laid;
  const { nodes } = main;
  // Beyond a sheave of unknown efficiency the tension could be anything.
  const isKnown = (segment: number): boolean => nodes.slice(1, segment + 1).every((n) => n.efficiency !== null);
  const tension = (segment: number): number | null =>
    isKnown(segment) ? Math.max(...cases.map((c) => main.tensionsN[c][segment] ?? 0)) : null;
  const last = nodes.length - 2;
  const highest = isKnown(last) ? Math.max(...nodes.slice(1).map((_, i) => tension(i) ?? 0)) : null;
  const resultant = (node: number): number | null =>
    isKnown(node) ? Math.max(...cases.map((c) => norm(sheavePull(nodes, main.tensionsN[c], node)))) : null;
  const part = (
    id: string,
    what: string,
    forceN: number | null,
    at: SiteVector,
    strength: Strength,
    at2: string,
  ): Component => ({
    id: `${line.id}/${id}`,
    subject: `${line.name}, ${what}`,
    forceN,
    at,
    field: `${field}.${at2}`,
    ...strength,
  });
  const knot = gearOf(plan, "knot", line.loadKnot);
  const connector = gearOf(plan, "connector", line.loadConnector);
  const tipAt = sheaveOf(main);
  const tipForce = resultant(1);
  const parts = [
    part("rope", "rope", highest, tipAt, strengthOf(rope), "rope"),
    part(
      "knot",
      `${knot?.name.toLowerCase() ?? "knot"} at the yoke`,
      tension(0),
      yoke,
      knotted(rope, knot),
      "loadKnot",
    ),
    part("connector", "connector at the yoke", tension(0), yoke, strengthOf(connector), "loadConnector"),
    part(
      "tip.sheave",
      "sheave at the tip",
      tipForce,
      tipAt,
      strengthOf(gearOf(plan, "sheave", line.tip.sheave)),
      "tip.sheave",
    ),
    part(
      "tip.connector",
      "connector at the tip",
      tipForce,
      tipAt,
      strengthOf(gearOf(plan, "connector", line.tip.connector)),
      "tip.connector",
    ),
  ];
  if (line.tip.sling !== null)
    parts.push(
      part(
        "tip.sling",
        "sling at the tip",
        tipForce,
        tipAt,
        hitched(plan, line.tip.sling, line.tip.hitch),
        "tip.sling",
      ),
    );
  for (const [k, redirect] of line.redirects.entries()) {
    const node = nodes.findIndex((n) => n.kind === "redirect" && n.id === redirect.id);
    const at = nodes[node]?.at ?? tipAt;
    const force = resultant(node);
    const name = redirect.name.toLowerCase();
    const here = `redirects[${k}]`;
    parts.push(
      part(
        `${redirect.id}.sheave`,
        `${name}, sheave`,
        force,
        at,
        strengthOf(gearOf(plan, "sheave", redirect.sheave)),
        `${here}.sheave`,
      ),
      part(
        `${redirect.id}.connector`,
        `${name}, connector`,
        force,
        at,
        strengthOf(gearOf(plan, "connector", redirect.connector)),
        `${here}.connector`,
      ),
      part(
        `${redirect.id}.anchor`,
        `${name}, anchor`,
        force,
        at,
        anchorStrength(plan, redirect.anchorage),
        `${here}.anchorage`,
      ),
    );
    if (redirect.sling !== null)
      parts.push(
        part(
          `${redirect.id}.sling`,
          `${name}, sling`,
          force,
          at,
          hitched(plan, redirect.sling, redirect.hitch),
          `${here}.sling`,
        ),
      );
  }
  const end = tension(last);
  const brakeAt = nodes.at(-1)?.at ?? tipAt;
  parts.push(
    part("brake", "brake", end, brakeAt, strengthOf(gearOf(plan, "brake", line.brake.device)), "brake.device"),
    part(
      "brake.connector",
      "brake, connector",
      end,
      brakeAt,
      strengthOf(gearOf(plan, "connector", line.brake.connector)),
      "brake.connector",
    ),
    part("brake.anchor", "brake, anchor", end, brakeAt, anchorStrength(plan, line.brake.anchorage), "brake.anchorage"),
  );
  return parts;
}

function tagComponents(plan: Plan, state: RigState): Component[] {
  return state.tags.flatMap(({ laid, tensionN }, i) => {
    const { line, rope } = laid;
    const base = { forceN: tensionN, at: state.yoke };
    const knot = gearOf(plan, "knot", line.knot);
    const field = `rig.taglines[${i}]`;
    return [
      { ...base, id: `${line.id}/rope`, subject: `${line.name}, rope`, ...strengthOf(rope), field: `${field}.rope` },
      {
        ...base,
        id: `${line.id}/knot`,
        subject: `${line.name}, ${knot?.name.toLowerCase() ?? "knot"}`,
        ...knotted(rope, knot),
        field: `${field}.knot`,
      },
      {
        ...base,
        id: `${line.id}/connector`,
        subject: `${line.name}, connector`,
        ...strengthOf(gearOf(plan, "connector", line.connector)),
        field: `${field}.connector`,
      },
    ];
  });
}

function tetherComponents(plan: Plan, { tether }: RigState): Component[] {
  if (tether === null) return [];
  const { line, rope } = tether.laid;
  const knot = gearOf(plan, "knot", line.knot);
  const pull = tether.tensionN;
  const hand = tetherHandN(tether);
  const base = { at: tether.pulleyAt };
  return [
    {
      ...base,
      id: `${line.id}/rope`,
      subject: `${line.name}, rope of the tackle`,
      forceN: hand,
      ...strengthOf(rope),
      field: "rig.tether.rope",
    },
    {
      ...base,
      id: `${line.id}/knot`,
      subject: `${line.name}, ${knot?.name.toLowerCase() ?? "knot"}`,
      forceN: hand,
      ...knotted(rope, knot),
      field: "rig.tether.knot",
    },
    {
      ...base,
      id: `${line.id}/connector`,
      subject: `${line.name}, connector`,
      forceN: pull,
      ...strengthOf(gearOf(plan, "connector", line.connector)),
      field: "rig.tether.connector",
    },
    {
      ...base,
      id: `${line.id}/pulley`,
      subject: `${line.name}, riding pulley`,
      forceN: pull,
      ...strengthOf(gearOf(plan, "sheave", line.pulley)),
      field: "rig.tether.pulley",
    },
  ];
}
